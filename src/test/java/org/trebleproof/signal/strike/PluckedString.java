package org.trebleproof.signal.strike;

import java.util.SplittableRandom;

/**
 * A made-up string for tests: partials with combs, stiffness and decay, written down one by one.
 */
public final class PluckedString {

  private PluckedString() {}

  /**
   * How it is struck.
   *
   * @param hz fundamental of the stiffness-free string [Hz]
   * @param stiffness B
   * @param place of the pluck, as a share of the string
   * @param strength amplitude
   */
  public record Pluck(double hz, double stiffness, double place, double strength) {}

  /** Amplitude of partial {@code k} before it decays. */
  public static double amplitude(Pluck pluck, int k) {
    return pluck.strength
        * Math.abs(Math.sin(Math.PI * k * pluck.place) * Math.sin(Math.PI * k * 0.137))
        / k;
  }

  /** Frequency of partial {@code k} [Hz]. */
  public static double frequency(Pluck pluck, int k) {
    return k * pluck.hz * Math.sqrt(1 + pluck.stiffness * k * k);
  }

  /** Decay rate at a frequency [1/s]. */
  public static double decay(double hz) {
    return 0.5 + hz / 2500;
  }

  /** Adds a strike to a recording; its partials' amplitudes may be changed by a circuit. */
  public static void add(
      float[] recording,
      double rate,
      int onset,
      Pluck pluck,
      java.util.function.DoubleUnaryOperator circuit,
      SplittableRandom random) {
    for (int k = 1; frequency(pluck, k) < Math.min(10000, 0.42 * rate); k++) {
      double hz = frequency(pluck, k);
      double size =
          amplitude(pluck, k)
              * circuit.applyAsDouble(hz)
              * Math.exp(0.04 * (random.nextDouble() + random.nextDouble() - 1) * 2.4);
      double step = 2 * Math.PI * hz / rate;
      double fall = Math.exp(-decay(hz) / rate);
      double c = Math.cos(step) * fall;
      double s = Math.sin(step) * fall;
      double phase = 0.4 * (random.nextDouble() - 0.5);
      double x = size * Math.cos(phase);
      double y = size * Math.sin(phase);
      for (int i = onset; i < recording.length; i++) {
        double attack = Math.min(1, (i - onset + 1) / (0.0005 * rate));
        recording[i] += (float) (attack * y);
        double next = x * c - y * s;
        y = x * s + y * c;
        x = next;
      }
    }
  }

  /** Hiss. */
  public static void hiss(float[] recording, double level, SplittableRandom random) {
    for (int i = 0; i < recording.length; i++) {
      recording[i] += (float) (level * 2 * (random.nextDouble() - 0.5));
    }
  }
}
