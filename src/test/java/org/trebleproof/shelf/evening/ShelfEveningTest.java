package org.trebleproof.shelf.evening;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;

class ShelfEveningTest {

  private static final Path SAMPLE = Path.of("sample-captures/unlabelled-coil");

  @TempDir Path folder;

  /** What was said, one word for each file. */
  private static final class Said implements EveningListener {
    final List<String> words = new ArrayList<>();

    @Override
    public void kept(Path file, String name, CoilAnswer answer, Standing standing) {
      words.add("kept " + name);
    }

    @Override
    public void known(Path file, String name, Standing standing) {
      words.add("known " + name);
    }

    @Override
    public void unusable(Path file, String why, Standing standing) {
      words.add("not " + file.getFileName());
    }
  }

  /** The sample's job, of another recording. */
  private static Map<String, Object> content(Path file) {
    Map<String, Object> content =
        new LinkedHashMap<>(
            JsonFile.read(SAMPLE.resolve("job.json"), "job file", Refusal::new).content());
    content.put(
        "captures", List.of(Map.of("id", "bare", "file", file.toString(), "setup", "bare")));
    return content;
  }

  private List<String> evening(String shelf, int threads, List<CoilTask> tasks) {
    Said said = new Said();
    try (ShelfStore store = ShelfStore.open(ShelfAddress.of(folder.resolve(shelf).toString()))) {
      new EveningRun(
              store,
              new CoilWork("test", r -> "{}", r -> "said"),
              new EveningRun.Said(
                  false,
                  "",
                  List.of(),
                  "",
                  new Circumstances("bench a", "", "2026-11-30", OptionalDouble.of(24))),
              threads,
              () -> 0,
              said)
          .run(tasks);
    }
    return said.words;
  }

  private static CoilTask task(Path file, String name, boolean exact) {
    return new CoilTask(file, name, exact, () -> content(file.toAbsolutePath()));
  }

  @Test
  void oneBadFileNeverStopsTheRestAndWhatIsKnownIsPassedOver() throws IOException {
    Path coil = SAMPLE.resolve("coil.flac");
    Path bad = Files.writeString(folder.resolve("bad.wav"), "no sound");
    List<CoilTask> tasks =
        List.of(
            task(bad, "grey 6", false), task(coil, "grey 6", false), task(coil, "grey 6", false));
    List<String> first = evening("a.db", 1, tasks);
    assertTrue(
        first.containsAll(List.of("not bad.wav", "kept grey 6", "known grey 6")), "" + first);
    assertEquals(
        List.of("not bad.wav", "known grey 6", "known grey 6"),
        evening("a.db", 1, tasks).stream().sorted((a, b) -> b.compareTo(a)).toList());
    // a name that is taken is no other coil's, unless it may be counted on
    Path other = folder.resolve("other.wav");
    Files.copy(Path.of("sample-captures/swap-at-jack/before.flac"), other);
    assertEquals(
        List.of("not other.wav"), evening("a.db", 1, List.of(task(other, "grey 6", true))));
  }

  @Test
  void theSameBitsOnAnyNumberOfThreads() {
    Path coil = SAMPLE.resolve("coil.flac");
    Path jack = Path.of("sample-captures/swap-at-jack/before.flac");
    List<CoilTask> tasks = List.of(task(coil, "a", false), task(jack, "b", false));
    evening("one.db", 1, tasks);
    evening("three.db", 3, tasks);
    List<ShelvedCoil> one = coils("one.db");
    List<ShelvedCoil> three = coils("three.db");
    assertEquals(one.size(), three.size());
    for (int i = 0; i < one.size(); i++) {
      assertEquals(one.get(i).name(), three.get(i).name());
      assertEquals(one.get(i).values(), three.get(i).values());
      assertEquals(one.get(i).state(), three.get(i).state());
    }
    assertEquals(CoilState.GOOD, one.get(0).state());
    assertArrayEquals(
        one.get(0).curve().orElseThrow().low(), three.get(0).curve().orElseThrow().low());
    // truth.json beside the sample
    assertTrue(one.get(0).value(CoilValue.INDUCTANCE).orElseThrow().contains(2.618));
  }

  @Test
  void allIsWorkedOutAgainInOrderOnAnyNumberOfThreads() {
    List<CoilTask> tasks =
        List.of(
            task(SAMPLE.resolve("coil.flac"), "a", false),
            task(Path.of("sample-captures/swap-at-jack/before.flac"), "b", false));
    evening("again.db", 2, tasks);
    List<ShelvedCoil> before = coils("again.db");
    for (int threads : new int[] {1, 3}) {
      List<String> said = new ArrayList<>();
      try (ShelfStore store =
          ShelfStore.existing(ShelfAddress.of(folder.resolve("again.db").toString()))) {
        List<ShelvedCoil> asked = new ArrayList<>(before);
        java.util.Collections.reverse(asked);
        int unusable =
            new RefitRun(store, new CoilWork("later", r -> "{}", r -> "said"), threads)
                .run(
                    asked,
                    new RefitRun.Listener() {
                      @Override
                      public void workedOut(ShelvedCoil coil, String before, CoilAnswer now) {
                        assertEquals("{}", before);
                        said.add(coil.name());
                        assertEquals(coil.values(), now.values());
                      }

                      @Override
                      public void unusable(ShelvedCoil coil, String why) {
                        said.add(coil.name() + ": " + why);
                      }
                    });
        assertEquals(0, unusable, said.toString());
      }
      assertEquals(List.of("b", "a"), said);
      assertEquals("later", coils("again.db").get(0).program());
    }
  }

  private List<ShelvedCoil> coils(String shelf) {
    try (ShelfStore store =
        ShelfStore.existing(ShelfAddress.of(folder.resolve(shelf).toString()))) {
      return store.measurements(true);
    }
  }
}
