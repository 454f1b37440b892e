package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Refusal;

class JobSketchTest {

  private static final Path FILE = Path.of("swap/job.json");

  private static Map<Slot, String> wired(String texts) {
    return JobSketch.wired(PlanReader.parsed(List.of(texts)));
  }

  private static Job job(JobSketch sketch) {
    Map<String, Object> content =
        JobReader.with(sketch.content(), Map.of(List.of("fixture", "kind"), "exciter"));
    return JobReader.beforeRecording(FILE, content);
  }

  @Test
  void makesTheJobOfAPotSwap() {
    JobSketch sketch =
        new JobSketch(
            wired("volume=250k,tone=250k 10%,toneCapacitor=22n,cable=3 m"),
            wired("volume=500k"),
            Optional.of("1n 1%"),
            Optional.of("5.7k 1%"),
            List.of("a.wav", "b.wav"));
    Job job = job(sketch);
    assertEquals("Volume pot 250k to 500k", job.title());
    assertEquals(List.of("before", "after"), List.copyOf(job.setups().keySet()));
    assertEquals(
        List.of("before a.wav []", "before clipped b.wav [clip]", "after after.wav []"),
        job.captures().stream()
            .map(c -> c.id() + " " + c.file().getFileName() + " " + c.across())
            .toList());
    Setup before = job.setups().get("before");
    Setup after = job.setups().get("after");
    assertEquals("old volume pot", before.volume().orElseThrow().part());
    assertEquals("new volume pot", after.volume().orElseThrow().part());
    // One tone pot in both setups: one part.
    assertEquals(before.tone(), after.tone());
    assertEquals(308e-12, job.parts().get("lead").marking().orElseThrow().value(), 1e-12);
    assertEquals(0.1, job.parts().get("tone pot").marking().orElseThrow().tolerance(), 1e-12);
    assertEquals(5700, job.parts().get("pickup").marking().orElseThrow().value(), 1e-9);
  }

  @Test
  void aPartCanBeTakenOutOrAdded() {
    Job job =
        job(
            new JobSketch(
                wired("volume=250k,tone=250k,toneCapacitor=22n"),
                wired("tone=none,toneCapacitor=none,cable=480p"),
                Optional.empty(),
                Optional.empty(),
                List.of()));
    assertTrue(job.setups().get("before").cable().isEmpty());
    assertEquals("lead", job.setups().get("after").cable().orElseThrow());
    assertTrue(job.setups().get("after").tone().isEmpty());
    assertEquals(
        job.setups().get("before").volume().orElseThrow(),
        job.setups().get("after").volume().orElseThrow());
  }

  @Test
  void aPickupByItselfIsOneBareSetup() {
    Job job = job(new JobSketch(Map.of(), Map.of(), Optional.empty(), Optional.empty(), List.of()));
    assertEquals(List.of("bare"), List.copyOf(job.setups().keySet()));
    assertEquals(1, job.captures().size());
  }

  /** Written and read again it is the same job. */
  @Test
  void isWhatItsFileSays(@org.junit.jupiter.api.io.TempDir Path folder) throws java.io.IOException {
    JobSketch sketch =
        new JobSketch(
            wired("volume=250k,cable=9 m"),
            wired("volume=none"),
            Optional.of("1n"),
            Optional.empty(),
            List.of());
    Map<String, Object> content =
        JobReader.with(sketch.content(), Map.of(List.of("fixture", "kind"), "exciter"));
    Path file = folder.resolve("job.json");
    java.nio.file.Files.writeString(file, JsonWriter.file(json -> json.content(content)));
    Job written = JobReader.readBeforeRecording(file);
    Job meant = JobReader.beforeRecording(file, content);
    assertEquals(meant.parts(), written.parts());
    assertEquals(meant.setups(), written.setups());
    assertEquals(meant.captures(), written.captures());
  }

  @Test
  void whatCannotBeReadIsSaid() {
    assertTrue(
        assertThrows(Refusal.class, () -> wired("volme=250k")).getMessage().contains("volme"));
    assertTrue(
        assertThrows(Refusal.class, () -> wired("volume=250")).getMessage().startsWith("volume:"));
    assertTrue(assertThrows(Refusal.class, () -> wired("input=1M")).getMessage().contains("input"));
  }
}
