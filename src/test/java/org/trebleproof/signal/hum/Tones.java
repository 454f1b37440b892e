package org.trebleproof.signal.hum;

import java.util.SplittableRandom;

/** Test sounds. */
final class Tones {

  private Tones() {}

  /** Silence of {@code seconds} at 48 kHz. */
  static double[] none(double seconds) {
    return new double[(int) (seconds * 48000)];
  }

  static double[] sine(double[] x, double hz, double peak) {
    for (int i = 0; i < x.length; i++) {
      x[i] += peak * Math.sin(0.3 + 2 * Math.PI * hz * i / 48000);
    }
    return x;
  }

  static double[] hiss(double[] x, double rms, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    for (int i = 0; i < x.length; i++) {
      double sum = 0;
      for (int k = 0; k < 12; k++) {
        sum += random.nextDouble();
      }
      x[i] += rms * (sum - 6);
    }
    return x;
  }

  static boolean[] all(BlockSpectra spectra) {
    boolean[] all = new boolean[spectra.blocks()];
    java.util.Arrays.fill(all, true);
    return all;
  }

  static float[] floats(double[] x) {
    float[] floats = new float[x.length];
    for (int i = 0; i < x.length; i++) {
      floats[i] = (float) x[i];
    }
    return floats;
  }
}
