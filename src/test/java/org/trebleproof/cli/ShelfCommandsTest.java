package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.shelf.store.ShelfStoreTest;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

class ShelfCommandsTest {

  @TempDir Path folder;

  /** A shelf with one coil, measured twice. */
  @BeforeEach
  void copyShelf() throws IOException {
    try (InputStream in = ShelfStoreTest.class.getResourceAsStream("shelf-1.db")) {
      Files.copy(in, folder.resolve("s.db"));
    }
  }

  private Outcome shelf(String... words) {
    List<String> all = new ArrayList<>(List.of("shelf"));
    all.addAll(List.of(words));
    all.addAll(List.of("--shelf", folder.resolve("s.db").toString()));
    return Outcome.of(all.toArray(new String[0]));
  }

  @Test
  void theTableIsSortedAndSearched() throws IOException {
    Outcome list = shelf("list", "--every", "--json", "-", "--csv", folder + "/t.csv");
    assertEquals(0, list.exitCode(), list.err());
    JsonNode coils = new ObjectMapper().readTree(list.out()).get("coils");
    assertEquals(2, coils.size());
    assertEquals(5700, coils.get(0).get("values").get("resistance").get("value").asDouble());
    assertEquals(3, Files.readAllLines(folder.resolve("t.csv")).size());
    assertEquals(0, shelf("list", "--where", "resistance=5.6k..5.8k").exitCode());
    Outcome none = shelf("list", "--where", "resistance=5.8k..");
    assertEquals(1, none.exitCode());
    assertTrue(none.err().contains("none is left"), none.err());
    assertEquals(0, shelf("list", "--text", "A. WINDER", "--tag", "a").exitCode());
    assertEquals(1, shelf("list", "--text", "no such words").exitCode());
    assertEquals(1, shelf("list", "--to", "2026-11-29").exitCode());
    assertEquals(0, shelf("list", "--who", "A. Winder").exitCode());
    assertEquals(1, shelf("list", "--who", "B. Winder").exitCode());
    for (String column : List.of("temperature", "tag", "notes", "turns", "who", "loss")) {
      assertEquals(0, shelf("list", "--sort", column, "--backwards").exitCode(), column);
    }
  }

  @Test
  void whatIsWrongIsSaidInOneSentence() {
    for (String[] words :
        new String[][] {
          {"list", "--sort", "colour"},
          {"list", "--where", "resistance"},
          {"list", "--where", "weight=1..2"},
          {"list", "--from", "yesterday"},
          {"list", "gray 6"},
          {"pairs", "--set", "1"},
          {"pairs", "--apart", "resistance"},
          {"recipe", "x", "--target", "resistance=5k"},
          {"drift"},
          {"benches", "a", "a"},
          {"benches", "bench a", "bench b"},
          {"export", "--folder", folder.toString()},
          {"import", folder.toString()},
          {"note", "grey 6"}
        }) {
      Outcome outcome = shelf(words);
      String said = String.join(" ", words) + ": " + outcome.err();
      assertTrue(outcome.exitCode() == 1 || outcome.exitCode() == 2, said);
      assertEquals(1, outcome.err().strip().lines().count(), said);
      assertFalse(outcome.err().contains("Exception") || outcome.err().contains("happen"), said);
    }
  }

  @Test
  void recipesJudge() {
    Outcome kept = shelf("recipe", "hot bridge", "--target", "resistance=5.7k 1%");
    assertEquals(0, kept.exitCode(), kept.err());
    Outcome judged = shelf("judge");
    assertTrue(judged.out().contains("1 within, 0 outside"), judged.out());
    Path page = folder.resolve("j.html");
    Path table = folder.resolve("j.csv");
    assertEquals(0, shelf("judge", "--page", "" + page, "--csv", "" + table).exitCode());
    assertWellFormed(page);
    assertEquals(2, lines(table).size());
    assertEquals(lines(table).get(0).split(",").length, lines(table).get(1).split(",").length);
    shelf("recipe", "hot bridge", "--target", "resistance=5.8k 1%");
    assertTrue(shelf("judge").out().contains("0 within, 1 outside"));
    shelf("recipe", "hot bridge", "--target", "resistance=5.757k 1%");
    assertTrue(shelf("judge").out().contains("1 undecided"), shelf("judge").out());
  }

  private static List<String> lines(Path file) {
    try {
      return Files.readAllLines(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void assertWellFormed(Path page) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      String html = Files.readString(page).replaceFirst("<!DOCTYPE html>", "");
      factory.newDocumentBuilder().parse(new InputSource(new StringReader(html)));
    } catch (IOException | ParserConfigurationException | SAXException e) {
      throw new AssertionError(page + ": " + e.getMessage(), e);
    }
  }

  @Test
  void theTableIsAPageThatSortsByItsNumbers() {
    Path page = folder.resolve("list.html");
    assertEquals(0, shelf("list", "--page", "" + page).exitCode());
    assertWellFormed(page);
    assertTrue(lines(page).stream().anyMatch(l -> l.contains("data-value=\"5700.0\"")));
  }

  /** What was typed on the first evening at a bench counts on the next. */
  @Test
  void aBenchThatIsKnownNeedsNoFixture() {
    String coil = "sample-captures/unlabelled-coil/coil.flac";
    Outcome unknown = shelf("add", coil, "--bench", "bench b");
    assertEquals(2, unknown.exitCode(), unknown.out());
    assertTrue(unknown.err().contains("say how the recordings were made"), unknown.err());
    Outcome first =
        shelf(
            "add",
            coil,
            "--bench",
            "bench b",
            "--fixture",
            "series",
            "--series-resistance",
            "100k 0.1%",
            "--input-resistance",
            "1M 1%",
            "--input-capacitance",
            "92p 3%");
    assertEquals(0, first.exitCode(), first.err());
    Outcome second = shelf("add", coil, "--bench", "bench b");
    assertEquals(0, second.exitCode(), second.err());
    assertTrue(
        second.out().contains("As before at bench b: fixture series, series resistor 100k 0.1%"),
        second.out());
    assertTrue(second.out().contains("is on the shelf already"), second.out());
  }

  /** Another evening with the same coils, named from the first one on: none becomes another. */
  @Test
  void severalCoilsMeasuredOnceMoreKeepTheirNames() {
    Recording coil = SoundFile.read(Path.of("sample-captures/unlabelled-coil/coil.flac"));
    List<String> words =
        new ArrayList<>(
            List.of("add", "--fixture", "series", "--series-resistance", "100k 0.1%", "--again"));
    words.addAll(List.of("--name", "blue 9"));
    for (double gain : new double[] {0.9, 0.8, 0.7}) {
      float[][] quieter = {coil.channel(1).clone(), coil.channel(2).clone()};
      for (float[] channel : quieter) {
        for (int i = 0; i < channel.length; i++) {
          channel[i] *= (float) gain;
        }
      }
      Path file = folder.resolve("take" + words.size() + ".wav");
      WavWriter.write(file, quieter, (int) coil.sampleRate(), WavWriter.Encoding.PCM24);
      words.add(file.toString());
    }
    Outcome added = shelf(words.toArray(new String[0]));
    assertEquals(0, added.exitCode(), added.err());
    for (String name : List.of("blue 9", "blue 10", "blue 11")) {
      assertTrue(added.out().contains("  " + name + "  "), added.out());
    }
  }

  @Test
  void anExportIsImportedElsewhere() {
    assertEquals(0, shelf("export", "--folder", folder + "/out").exitCode());
    String other = folder + "/other.db";
    Outcome in = Outcome.of("shelf", "import", folder + "/out", "--shelf", other);
    // the fixture's job is an empty one, which is no job
    assertEquals(1, in.exitCode());
    assertTrue(in.err().contains("not imported"), in.err());
    assertEquals(0, shelf("check").exitCode());
  }

  @Test
  void photosAreKeptAndComeOutAgain() throws IOException {
    byte[] picture = {(byte) 0xff, (byte) 0xd8, (byte) 0xff, (byte) 0xe0, 1, 2, 3};
    Path photo = Files.write(folder.resolve("front.jpg"), picture);
    Path text = Files.writeString(folder.resolve("front.txt"), "no picture");
    assertEquals(0, shelf("note", "grey 6", "--photo", photo.toString()).exitCode());
    assertEquals(0, shelf("note", "grey 6", "--photo", photo.toString()).exitCode(), "kept once");
    Outcome none = shelf("note", "grey 6", "--photo", text.toString());
    assertEquals(1, none.exitCode());
    assertTrue(none.err().contains("front.txt is no picture"), none.err());
    assertEquals(0, shelf("export", "--folder", folder + "/out").exitCode());
    try (Stream<Path> files = Files.walk(folder.resolve("out"))) {
      List<Path> kept = files.filter(f -> f.toString().endsWith(".jpg")).toList();
      assertEquals(1, kept.size(), "" + kept);
      assertArrayEquals(picture, Files.readAllBytes(kept.get(0)));
      String coil = Files.readString(kept.get(0).resolveSibling("coil.json"));
      assertTrue(coil.contains("\"photo\""), coil);
    }
    assertEquals(0, shelf("check").exitCode());
  }

  @Test
  void noOutputReplacesAShelf() throws IOException {
    Path other = Files.copy(folder.resolve("s.db"), folder.resolve("other.db"));
    byte[] before = Files.readAllBytes(other);
    Outcome outcome = shelf("list", "--json", other.toString());
    assertEquals(2, outcome.exitCode(), outcome.err());
    assertTrue(outcome.err().contains("would replace a shelf"), outcome.err());
    assertArrayEquals(before, Files.readAllBytes(other));
  }

  @Test
  void aWordThatIsNoCommandIsNamed() {
    Outcome outcome = Outcome.of("shelf", "lst");
    assertEquals(2, outcome.exitCode());
    assertTrue(outcome.err().contains("did you mean shelf list"), outcome.err());
  }
}
