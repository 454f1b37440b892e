package org.trebleproof.audio.device;

import java.util.SplittableRandom;
import java.util.function.DoubleFunction;
import org.trebleproof.signal.RealFft;

/**
 * A circuit between the output and the second input, the first input on the driven end: the
 * circuit's response as an impulse response of its own sample rate, exact up to 20 kHz at 48 kHz
 * and smoothly gone above, so that nothing folds. White noise on both inputs on demand.
 */
public final class CircuitWiring implements SimulatedSoundSystem.Wiring {

  private static final int TAPS = 512;

  /** What comes before the impulse because the band ends; both inputs wait for it [samples]. */
  private static final int AHEAD = 64;

  private final double[] reversed = new double[TAPS];
  private final double[] past = new double[2 * TAPS];
  private final SplittableRandom chance = new SplittableRandom(5);
  private final double noise;
  private int at;
  private int quiet;

  /**
   * @param transfer {real, imaginary} at a frequency [Hz]
   * @param noise standard deviation, full scale 1
   */
  public CircuitWiring(DoubleFunction<double[]> transfer, double sampleRate, double noise) {
    this.noise = noise;
    RealFft fft = RealFft.ofLength(TAPS);
    double[] re = new double[fft.bins()];
    double[] im = new double[fft.bins()];
    for (int k = 0; k < re.length; k++) {
      double hz = k * sampleRate / TAPS;
      double over = (hz - 20500) / (0.49 * sampleRate - 20500);
      double pass = over <= 0 ? 1 : over >= 1 ? 0 : 0.5 + 0.5 * Math.cos(Math.PI * over);
      double[] h = transfer.apply(hz);
      double turn = -2 * Math.PI * k * AHEAD / TAPS;
      re[k] = pass * (h[0] * Math.cos(turn) - h[1] * Math.sin(turn));
      im[k] = pass * (h[1] * Math.cos(turn) + h[0] * Math.sin(turn));
    }
    im[0] = 0;
    double[] impulse = new double[TAPS];
    fft.inverse(re, im, impulse);
    for (int k = 0; k < TAPS; k++) {
      reversed[k] = impulse[TAPS - 1 - k];
    }
  }

  /** A coil of R, L and C behind a series resistor, with the recorder's input across it. */
  public static DoubleFunction<double[]> coil(
      double series, double resistance, double inductance, double capacitance, double load) {
    return hz -> {
      double w = 2 * Math.PI * hz;
      double size = resistance * resistance + w * inductance * w * inductance;
      double g = resistance / size + 1 / load;
      double b = -w * inductance / size + w * capacitance;
      double a = 1 + series * g;
      double c = series * b;
      return new double[] {a / (a * a + c * c), -c / (a * a + c * c)};
    };
  }

  @Override
  public void pass(double played, double[] recorded) {
    // Written twice, so that the last TAPS samples always lie in one piece.
    past[at] = played;
    past[at + TAPS] = played;
    quiet = played == 0 ? quiet + 1 : 0;
    double sum = 0;
    if (quiet <= TAPS) {
      double odd = 0;
      for (int k = 0, p = at + 1; k < TAPS; k += 2, p += 2) {
        sum += reversed[k] * past[p];
        odd += reversed[k + 1] * past[p + 1];
      }
      sum += odd;
    }
    recorded[0] = past[at + TAPS - AHEAD] + noise();
    recorded[1] = sum + noise();
    at = (at + 1) % TAPS;
  }

  /** Nearly normal: the sum of four, which is enough here. */
  private double noise() {
    if (noise == 0) {
      return 0;
    }
    double sum = -2;
    for (int i = 0; i < 4; i++) {
      sum += chance.nextDouble();
    }
    return noise * Math.sqrt(3) * sum;
  }
}
