package org.trebleproof.bench.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.JobReader;

/** Strikes with a part clipped across the jack: it is no part of what changed between setups. */
class ClippedStrikesTest {

  private static final double[] FOUR = {110, 146.8324, 195.9977, 329.6276};
  private static final StruckGuitar.Load BEFORE = new StruckGuitar.Load(262e3, 520e-12);
  private static final StruckGuitar.Load CLIPPED = new StruckGuitar.Load(262e3, 1520e-12);
  private static final StruckGuitar.Load AFTER = new StruckGuitar.Load(484e3, 520e-12);

  @TempDir Path folder;

  private void record(String name, StruckGuitar.Load load, long seed) {
    StruckGuitar.write(
        folder, name, StruckGuitar.recording(new StruckGuitar.Player(FOUR, 8, 1.2, 1, seed), load));
  }

  /** The job with the clipped capture before all others. */
  private FitResult run(List<String> setups) throws IOException {
    record("before", BEFORE, 51);
    record("clipped", CLIPPED, 52);
    record("after", AFTER, 53);
    Path file = StruckGuitar.job(folder, true, setups);
    Files.writeString(
        file,
        Files.readString(file)
            .replace(
                "\"parts\": {",
                "\"parts\": {\"clip\": {\"kind\": \"capacitor\", \"value\": \"1n 1%\"}, ")
            .replace(
                "\"captures\": [",
                "\"captures\": [{\"id\": \"clipped\", \"file\": \"clipped.wav\","
                    + " \"setup\": \"before\", \"across\": [\"clip\"]}, "));
    return new FitJob().run(JobReader.read(file));
  }

  /** From before to before with a clip is no change from before to before. */
  @Test
  void oneSetupWithAClipHasNoDifference() throws IOException {
    FitResult result = run(List.of("before"));
    assertTrue(result.difference().isEmpty());
    assertEquals(
        List.of("before", "before with clip"), result.strikes().orElseThrow().conditions());
    assertTrue(
        result.rows().stream()
            .filter(r -> r.key().text().equals("before.resonance"))
            .allMatch(r -> r.estimate().isPresent()));
  }

  /** Held to the textbook formula, to within the band at 4 kHz and half a decibel. */
  @Test
  void theClipIsNoPartOfTheDifference() throws IOException {
    FitResult result = run(List.of("before", "after"));
    FitResult.DifferenceCurve curve = result.difference().orElseThrow();
    assertEquals("before", curve.from());
    assertEquals("after", curve.to());
    assertEquals(
        List.of("before", "before with clip", "after"),
        result.strikes().orElseThrow().conditions());
    for (int i = 0; i < curve.hz().length; i++) {
      if (curve.hz()[i] > 1000 && curve.hz()[i] < 6000) {
        double truth = 20 * Math.log10(AFTER.level(curve.hz()[i]) / BEFORE.level(curve.hz()[i]));
        assertEquals(truth, curve.decibel()[i], 0.6, "at " + curve.hz()[i]);
      }
    }
  }
}
