package org.trebleproof.bench.hum;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.hum.NoSilence.Kind;
import org.trebleproof.quantity.Refusal;

/** No verdict on what is no silence, and none missing on what is. */
class NoSilenceTest {

  /** Drawn from this seed on, kind after kind; raise the counts for a longer run. */
  private static final long SEED = Long.getLong("silence.seed", 300_000);

  private static final int CASES = Integer.getInteger("silence.cases", Kind.values().length);
  private static final int VISITS = Integer.getInteger("silence.visits", 12);

  @TempDir Path folder;

  @Test
  void noneGetsAVerdict() {
    List<String> verdicts =
        IntStream.range(0, CASES).parallel().mapToObj(this::verdict).flatMap(Stream::of).toList();
    assertEquals(List.of(), verdicts, "seed " + SEED);
  }

  private String[] verdict(int number) {
    NoSilence sound = new NoSilence(SEED + number, Kind.values()[number % Kind.values().length]);
    Path file = folder.resolve(number + ".wav");
    WavWriter.write(
        file, new float[][] {sound.samples}, (int) sound.rate, WavWriter.Encoding.PCM24);
    try {
      HumResult result =
          new HumCheck(1).run(Map.of(HumState.HANDS_OFF, file), Optional.empty(), Map.of());
      return new String[] {sound.story + " got " + result.causes()};
    } catch (Refusal refusal) {
      boolean said =
          refusal.getMessage().contains("is no silence")
              || refusal.getMessage().contains("holds nothing at all")
              || refusal.getMessage().contains("holds something for only");
      return said ? new String[0] : new String[] {sound.story + " said " + refusal.getMessage()};
    } finally {
      assertTrue(file.toFile().delete());
    }
  }

  /** Brushed strings, radios and turned gains included. */
  @Test
  void silenceIsNeverTakenForAnythingElse() {
    List<String> refused =
        IntStream.range(0, VISITS)
            .parallel()
            .mapToObj(
                n -> {
                  var truths = SilenceCases.truths();
                  var silence = new SilenceCase(SEED + n, truths.get(n % truths.size()));
                  var foreign = VisitReading.read(silence.recordings, 1).foreign();
                  return foreign.isEmpty() ? "" : silence.story + " got " + foreign;
                })
            .filter(story -> !story.isEmpty())
            .toList();
    assertEquals(List.of(), refused, "seed " + SEED);
  }
}
