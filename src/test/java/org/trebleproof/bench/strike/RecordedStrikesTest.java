package org.trebleproof.bench.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.signal.strike.InstrumentSamples;

/**
 * Real recorded notes (fluid-soundfont-gm, steel acoustic guitar) through a known change of load:
 * the difference must come back within 0.3 dB.
 */
@Tag("recordings")
class RecordedStrikesTest {

  private static final List<String> NOTES =
      List.of("Steel E3", "Steel A3", "Steel D4", "Steel G4", "Steel B4", "Steel E5");

  private static final double LIMIT = 0.3;
  private static final StruckGuitar.Load BEFORE = new StruckGuitar.Load(262e3, 520e-12);
  private static final StruckGuitar.Load AFTER = new StruckGuitar.Load(484e3, 520e-12);

  @TempDir Path folder;

  /** Notes one after the other, each struck twice with strengths of its own, through a circuit. */
  private static float[] played(
      Map<String, InstrumentSamples.Note> font, StruckGuitar.Load load, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int rate = 44100;
    int apart = (int) (1.6 * rate);
    double[] x = new double[rate + 2 * NOTES.size() * apart + rate];
    for (int i = 0; i < 2 * NOTES.size(); i++) {
      float[] note = font.get(NOTES.get(i % NOTES.size())).samples();
      double strength =
          0.5 * Math.pow(10, 2.4 * (random.nextDouble() + random.nextDouble() - 1) / 20);
      int at = rate / 2 + i * apart + random.nextInt(2000);
      for (int k = 0; k < note.length && k < apart - 3000; k++) {
        // a hand stops each note before the next
        double fade = Math.min(1, (apart - 3000 - k) / 4000.0);
        x[at + k] += strength * fade * note[k];
      }
    }
    org.jtransforms.fft.DoubleFFT_1D fft = new org.jtransforms.fft.DoubleFFT_1D(x.length);
    fft.realForward(x);
    for (int k = 0; 2 * k + 1 < x.length; k++) {
      double level = load.level(Math.max(1, k * (double) rate / x.length));
      x[2 * k] *= level;
      if (k > 0) {
        x[2 * k + 1] *= level;
      }
    }
    fft.realInverse(x, true);
    float[] y = new float[x.length];
    for (int i = 0; i < y.length; i++) {
      y[i] = (float) (x[i] + 2e-5 * (random.nextDouble() - 0.5));
    }
    return y;
  }

  @Test
  void aKnownChangeOfLoadComesBack() throws IOException {
    Map<String, InstrumentSamples.Note> font =
        InstrumentSamples.soundFont(InstrumentSamples.SOUND_FONT);
    WavWriter.write(
        folder.resolve("before.wav"),
        new float[][] {played(font, BEFORE, 1)},
        44100,
        WavWriter.Encoding.PCM24);
    WavWriter.write(
        folder.resolve("after.wav"),
        new float[][] {played(font, AFTER, 2)},
        44100,
        WavWriter.Encoding.PCM24);
    FitResult result =
        new FitJob()
            .run(JobReader.read(StruckGuitar.job(folder, true, List.of("before", "after"))));
    assertTrue(!result.verdict().refused(), () -> result.findings().toString());
    FitResult.DifferenceCurve curve = result.difference().orElseThrow();
    for (int i = 0; i < curve.hz().length; i++) {
      double hz = curve.hz()[i];
      if (hz > 300 && hz < 6000) {
        double truth = 20 * Math.log10(AFTER.level(hz) / BEFORE.level(hz));
        assertEquals(truth, curve.decibel()[i], LIMIT, hz + " Hz");
      }
    }
  }
}
