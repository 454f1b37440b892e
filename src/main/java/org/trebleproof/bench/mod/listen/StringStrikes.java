package org.trebleproof.bench.mod.listen;

/**
 * Six open strings struck one after the other, as the voltage they induce: a stand-in where no dry
 * recording is at hand. Partial n of an ideal string struck at a share p of its length moves with a
 * velocity that goes as sin(n pi p) / n and is heard at a share q as sin(n pi q); inharmonicity f_n
 * = n f sqrt(1 + B n^2) (Fletcher 1964). Decay times are common practice, no source.
 */
final class StringStrikes {
  private static final double[] OPEN = {82.4069, 110, 146.8324, 195.9977, 246.9417, 329.6276};
  private static final double STRUCK = 0.18;
  private static final double HEARD = 0.25;
  private static final double APART = 0.5;
  private static final double LENGTH = 5;
  private static final double INHARMONICITY = 4e-5;
  private static final double HIGHEST = 12000;

  private StringStrikes() {}

  static float[] at(double rate) {
    float[] samples = new float[(int) (LENGTH * rate)];
    for (int s = 0; s < OPEN.length; s++) {
      int start = (int) ((0.1 + s * APART) * rate);
      for (int n = 1; n * OPEN[s] < Math.min(HIGHEST, 0.45 * rate); n++) {
        double hz = n * OPEN[s] * Math.sqrt(1 + INHARMONICITY * n * n);
        double size = Math.sin(n * Math.PI * STRUCK) / n * Math.sin(n * Math.PI * HEARD);
        double decay = 0.9 + 0.0009 * hz;
        // A decaying rotation, step by step: the sine of each sample would take ten times as long.
        double shrink = Math.exp(-decay / rate);
        double cos = shrink * Math.cos(2 * Math.PI * hz / rate);
        double sin = shrink * Math.sin(2 * Math.PI * hz / rate);
        double re = 0.1 * size;
        double im = 0;
        for (int i = start; i < samples.length; i++) {
          samples[i] += (float) im;
          double turned = re * cos - im * sin;
          im = re * sin + im * cos;
          re = turned;
        }
      }
    }
    return samples;
  }
}
