package org.trebleproof.bench.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import org.jtransforms.fft.DoubleFFT_1D;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.signal.strike.PluckedString;

/**
 * What players do besides single clean notes: the difference must hold its band, against the
 * circuit's textbook formula.
 */
class OddStrikesTest {

  private static final double[] FOUR = {110, 146.8324, 195.9977, 329.6276};
  private static final StruckGuitar.Load BEFORE = new StruckGuitar.Load(262e3, 520e-12);
  private static final StruckGuitar.Load AFTER = new StruckGuitar.Load(484e3, 520e-12);
  private static final int RATE = StruckGuitar.RATE;

  @TempDir Path folder;

  private FitResult compared(float[] before, float[] after) throws IOException {
    StruckGuitar.write(folder, "before", before);
    StruckGuitar.write(folder, "after", after);
    FitResult result =
        new FitJob()
            .run(JobReader.read(StruckGuitar.job(folder, true, List.of("before", "after"))));
    assertFalse(result.verdict().refused(), () -> result.findings().toString());
    return result;
  }

  private static float[] played(double[] notes, StruckGuitar.Load load, long seed) {
    return StruckGuitar.recording(new StruckGuitar.Player(notes, 12, 1.2, 1, seed), load);
  }

  /** Rms error, and no more than one point in ten outside the band. */
  private static void within(double rms, FitResult result) {
    FitResult.DifferenceCurve curve = result.difference().orElseThrow();
    double sum = 0;
    int n = 0;
    int inside = 0;
    for (int i = 0; i < curve.hz().length; i++) {
      double hz = curve.hz()[i];
      if (hz > 300 && hz < 6000) {
        double truth = 20 * Math.log10(AFTER.level(hz) / BEFORE.level(hz));
        sum += Math.pow(curve.decibel()[i] - truth, 2);
        inside += curve.low()[i] <= truth && truth <= curve.high()[i] ? 1 : 0;
        n++;
      }
    }
    assertTrue(n > 50, "points " + n);
    assertTrue(Math.sqrt(sum / n) < rms, "rms " + Math.sqrt(sum / n));
    assertTrue(inside > 0.9 * n, inside + " of " + n + " in the band");
  }

  private static double[] tuned(double cent) {
    double[] notes = FOUR.clone();
    for (int i = 0; i < notes.length; i++) {
      notes[i] *= Math.pow(2, cent / 1200);
    }
    return notes;
  }

  @Test
  void aGuitarThatWentOutOfTune() throws IOException {
    FitResult result = compared(played(tuned(-12), BEFORE, 21), played(tuned(8), AFTER, 22));
    within(0.4, result);
    assertEquals(4, result.strikes().orElseThrow().captures().get(1).notes().size());
  }

  /** Notes whose every partial lies on a mains line, with hum that changed between recordings. */
  @Test
  void humUnderEveryPartial() throws IOException {
    double[] notes = {100, 150, 200, 250};
    float[] before = played(notes, BEFORE, 23);
    float[] after = played(notes, AFTER, 24);
    hum(before, 1e-3);
    hum(after, 4e-3);
    FitResult result = compared(before, after);
    within(0.6, result);
    StrikeEvidence evidence = result.strikes().orElseThrow();
    assertTrue(evidence.atMains() > 0);
    assertTrue(evidence.atMains() <= evidence.drowned(), "those on mains lines are some of them");
  }

  private static void hum(float[] x, double level) {
    for (int k = 1; k <= 30; k++) {
      for (int i = 0; i < x.length; i++) {
        x[i] += (float) (level / k * Math.sin(2 * Math.PI * 50.01 * k * i / RATE + k * k));
      }
    }
  }

  @Test
  void stringsHitTwiceAreLeftOutAndCounted() throws IOException {
    float[] after = played(FOUR, AFTER, 26);
    SplittableRandom random = new SplittableRandom(27);
    for (int strike : new int[] {2, 7}) {
      PluckedString.add(
          after,
          RATE,
          (int) ((0.8 + strike + 0.11) * RATE),
          new PluckedString.Pluck(FOUR[strike % 4], 5e-5, 0.17, 0.2),
          AFTER::level,
          random);
    }
    FitResult result = compared(played(FOUR, BEFORE, 25), after);
    assertEquals(2, result.strikes().orElseThrow().captures().get(1).doubled());
    within(0.4, result);
  }

  /** A pick drawn over damped strings: noise that dies away, through the circuit. */
  @Test
  void scrapesOverMutedStrings() throws IOException {
    FitResult result = compared(scraped(BEFORE, 28), scraped(AFTER, 29));
    within(0.6, result);
    assertTrue(result.findings().stream().anyMatch(f -> f.code() == FindingCode.STRIKES_BROADBAND));
  }

  private static float[] scraped(StruckGuitar.Load load, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] x = new double[14 * RATE];
    for (int s = 0; s < 12; s++) {
      double strength = 0.1 * Math.pow(10, 1.2 * random.nextGaussian() / 20);
      int at = (int) ((0.8 + s) * RATE);
      for (int i = 0; i < 0.5 * RATE; i++) {
        x[at + i] +=
            strength
                * Math.min(1, i / (0.001 * RATE))
                * Math.exp(-i / (0.08 * RATE))
                * random.nextGaussian();
      }
    }
    return through(x, load, random);
  }

  private static float[] through(double[] x, StruckGuitar.Load load, SplittableRandom random) {
    DoubleFFT_1D fft = new DoubleFFT_1D(x.length);
    fft.realForward(x);
    for (int k = 1; 2 * k + 1 < x.length; k++) {
      double level = load.level(k * (double) RATE / x.length);
      x[2 * k] *= level;
      x[2 * k + 1] *= level;
    }
    fft.realInverse(x, true);
    float[] y = new float[x.length];
    for (int i = 0; i < y.length; i++) {
      y[i] = (float) (x[i] + 2e-5 * random.nextGaussian());
    }
    return y;
  }

  /** Four open strings a hundredth of a second apart. */
  @Test
  void strums() throws IOException {
    within(0.6, compared(strummed(BEFORE, 30), strummed(AFTER, 31)));
  }

  private static float[] strummed(StruckGuitar.Load load, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    float[] x = new float[14 * RATE];
    PluckedString.hiss(x, 2e-5, random);
    for (int s = 0; s < 12; s++) {
      double strength = 0.06 * Math.pow(10, 1.2 * random.nextGaussian() / 20);
      float[] one = new float[(int) (0.95 * RATE)];
      for (int n = 0; n < FOUR.length; n++) {
        PluckedString.add(
            one,
            RATE,
            (int) (0.01 * n * RATE),
            new PluckedString.Pluck(
                FOUR[n] * Math.pow(2, 3 * random.nextGaussian() / 1200),
                5e-5,
                0.19 + 0.012 * random.nextGaussian(),
                strength),
            load::level,
            random);
      }
      int at = (int) ((0.8 + s) * RATE);
      for (int i = 0; i < one.length; i++) {
        // a hand stops them before the next
        x[at + i] += one[i] * Math.min(1, (one.length - i) / (0.1f * RATE));
      }
    }
    return x;
  }
}
