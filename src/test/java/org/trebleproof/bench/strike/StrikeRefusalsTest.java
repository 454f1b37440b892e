package org.trebleproof.bench.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;

/** A refused recording of strikes is told what it was that went wrong, and not what follows. */
class StrikeRefusalsTest {

  private static final double[] FOUR = {110, 146.8324, 195.9977, 329.6276};
  private static final StruckGuitar.Load LOAD = new StruckGuitar.Load(262e3, 520e-12);

  @TempDir Path folder;

  private static float[] played(double[] notes, long seed) {
    return StruckGuitar.recording(new StruckGuitar.Player(notes, 8, 1.2, 1, seed), LOAD);
  }

  private static double[] tuned(double cent) {
    return Arrays.stream(FOUR).map(hz -> hz * Math.pow(2, cent / 1200)).toArray();
  }

  /** The one error there may be, the notes both times being as given. */
  private Finding error(float[] before, float[] after) throws IOException {
    StruckGuitar.write(folder, "before", before);
    StruckGuitar.write(folder, "after", after);
    return error();
  }

  private Finding error() throws IOException {
    FitResult result =
        new FitJob()
            .run(JobReader.read(StruckGuitar.job(folder, true, List.of("before", "after"))));
    assertTrue(result.verdict().refused());
    List<Finding> errors =
        result.findings().stream().filter(f -> f.severity() == Finding.Severity.ERROR).toList();
    assertEquals(1, errors.size(), errors.toString());
    return errors.get(0);
  }

  /** At five semitones three of four open strings ring at a pitch that was there before. */
  @Test
  void aCapoIsNamed() throws IOException {
    for (double semitones : new double[] {2, 5}) {
      Finding error = error(played(FOUR, 41), played(tuned(100 * semitones), 42));
      assertEquals(FindingCode.STRIKES_NOTES_DIFFER, error.code());
      assertTrue(
          error.text().contains("\"after\" lies %.1f semitones above".formatted(semitones)),
          error.text());
      assertTrue(error.next().contains("capo"), error.next());
    }
  }

  @Test
  void aWrongSampleRateIsNamed() throws IOException {
    StruckGuitar.write(folder, "before", played(FOUR, 43));
    WavWriter.write(
        folder.resolve("after.wav"),
        new float[][] {played(FOUR, 44)},
        (int) Math.round(StruckGuitar.RATE * 44.1 / 48),
        WavWriter.Encoding.PCM24);
    Finding error = error();
    assertEquals(FindingCode.STRIKES_NOTES_DIFFER, error.code());
    assertTrue(error.next().contains("sample rate"), error.next());
  }

  @Test
  void strikesThatAllClippedAreNotCalledDifferentNotes() throws IOException {
    float[] before = played(FOUR, 45);
    for (int i = 0; i < before.length; i++) {
      before[i] = Math.max(-1, Math.min(1, 40 * before[i]));
    }
    Finding error = error(before, played(FOUR, 46));
    assertEquals(FindingCode.STRIKES_NONE_USABLE, error.code());
    assertTrue(error.text().contains("clipped"), error.text());
    assertTrue(error.next().contains("gain"), error.next());
  }

  @Test
  void silenceIsNotCalledDifferentNotes() throws IOException {
    float[] quiet = new float[2 * StruckGuitar.RATE];
    assertEquals(FindingCode.STRIKES_NONE, error(quiet, played(FOUR, 47)).code());
  }

  @Test
  void tooFewAreNotCalledDifferentNotes() throws IOException {
    float[] after =
        StruckGuitar.recording(
            new StruckGuitar.Player(new double[] {123.47, 174.61}, 2, 1.2, 1, 49), LOAD);
    Finding error = error(played(FOUR, 48), after);
    assertEquals(FindingCode.STRIKES_TOO_FEW, error.code());
    assertTrue(error.text().startsWith("Only 2 strikes of setup \"after\""), error.text());
  }

  @Test
  void strikesOnAnotherChannelAreFound() throws IOException {
    float[] before = played(FOUR, 50);
    StruckGuitar.write(folder, "after", played(FOUR, 51));
    WavWriter.write(
        folder.resolve("before.wav"),
        new float[][] {new float[before.length], before},
        StruckGuitar.RATE,
        WavWriter.Encoding.PCM24);
    Finding error = error();
    assertEquals(FindingCode.STRIKES_NONE, error.code());
    assertTrue(error.next().startsWith("The guitar is on channel 2: say so ("), error.next());
  }
}
