package org.trebleproof.signal.sweep;

import java.util.Arrays;
import org.trebleproof.quantity.Response;

/**
 * The phase that goes with a measured magnitude where nothing only delays: Bode's relation, phase =
 * 1/pi times the integral of the slope d ln|H| / d ln f, weighted by ln coth(|u|/2), u = ln(f/f0)
 * (Bode, Network Analysis and Feedback Amplifier Design, 1945, chapter XIV, from memory). Beyond
 * the measured range the slopes at its ends go on.
 */
public final class MinimumPhase {

  /** Slopes beyond the ends are those of the last half octave. */
  private static final double END = 0.5 * Math.log(2);

  /** Delays are looked for up to this, in steps that are a small share of a turn at 15 kHz [s]. */
  private static final double LONGEST = 2e-3;

  private static final double STEP = 5e-6;

  /** Relative standard deviation beyond which an end is not believed. */
  private static final double UNSURE = 0.02;

  private MinimumPhase() {}

  /**
   * What a response has more than its minimum phase: a delay and a sign.
   *
   * @param delay [s]
   * @param polarity 1, or -1 where it is upside down
   * @param scatter of the phase about both, effective value [rad]
   */
  public record Excess(double delay, int polarity, double scatter) {}

  /** The excess of a response between two frequencies, weighted by its accuracy. */
  public static Excess excess(Response whole, double lowHz, double highHz) {
    Response r = sure(whole);
    if (r.size() < 3) {
      return new Excess(0, 1, Double.POSITIVE_INFINITY);
    }
    double[] phase = phase(r);
    double start = coarse(r, phase, lowHz, highHz);
    Excess best = null;
    for (int polarity : new int[] {1, -1}) {
      Excess e = line(r, phase, lowHz, highHz, polarity, start);
      if (best == null || e.scatter() < best.scatter()) {
        best = e;
      }
    }
    return best;
  }

  /** Without the ends that noise rules: their slopes would go on to zero and to infinity. */
  private static Response sure(Response r) {
    int first = 0;
    int last = r.size();
    while (first < last && !(r.sd()[first] < UNSURE * r.magnitude(first))) {
      first++;
    }
    while (last > first && !(r.sd()[last - 1] < UNSURE * r.magnitude(last - 1))) {
      last--;
    }
    return new Response(
        Arrays.copyOfRange(r.hz(), first, last),
        Arrays.copyOfRange(r.re(), first, last),
        Arrays.copyOfRange(r.im(), first, last),
        Arrays.copyOfRange(r.sd(), first, last));
  }

  /** The delay at which the excess phases agree best, whatever the sign: no turn is lost. */
  private static double coarse(Response r, double[] phase, double low, double high) {
    double best = 0;
    double most = -1;
    for (double delay = -LONGEST; delay <= LONGEST; delay += STEP) {
      double re = 0;
      double im = 0;
      for (int i = 0; i < r.size(); i++) {
        if (r.hz()[i] >= low && r.hz()[i] <= high) {
          double angle = r.phase(i) - phase[i] + 2 * Math.PI * r.hz()[i] * delay;
          re += Math.cos(angle);
          im += Math.sin(angle);
        }
      }
      if (re * re + im * im > most) {
        most = re * re + im * im;
        best = delay;
      }
    }
    return best;
  }

  private static Excess line(
      Response r, double[] phase, double low, double high, int polarity, double start) {
    double delay = start;
    double scatter = Double.POSITIVE_INFINITY;
    // Twice: the first delay unwraps for the second.
    for (int pass = 0; pass < 3; pass++) {
      double sxx = 0;
      double sxy = 0;
      double sw = 0;
      double syy = 0;
      for (int i = 0; i < r.size(); i++) {
        if (r.hz()[i] < low || r.hz()[i] > high) {
          continue;
        }
        double w = 2 * Math.PI * r.hz()[i];
        double angle = r.phase(i) - phase[i] + w * delay + (polarity < 0 ? Math.PI : 0);
        angle = Math.IEEEremainder(angle, 2 * Math.PI);
        double relative = r.sd()[i] / r.magnitude(i);
        double weight = 1 / (relative * relative + 1e-4);
        sxx += weight * w * w;
        sxy -= weight * w * angle;
        syy += weight * angle * angle;
        sw += weight;
      }
      if (sw == 0) {
        return new Excess(0, polarity, Double.POSITIVE_INFINITY);
      }
      delay += sxy / sxx;
      scatter = Math.sqrt(Math.max(0, syy - sxy * sxy / sxx) / sw);
    }
    return new Excess(delay, polarity, scatter);
  }

  /** Minimum phase at the response's frequencies [rad]. */
  static double[] phase(Response r) {
    int n = r.size();
    double[] u = new double[n];
    double[] a = new double[n];
    for (int i = 0; i < n; i++) {
      u[i] = Math.log(r.hz()[i]);
      a[i] = Math.log(r.magnitude(i));
    }
    double first = slope(u, a, u[0], u[0] + END);
    double last = slope(u, a, u[n - 1] - END, u[n - 1]);
    double[] phase = new double[n];
    for (int k = 0; k < n; k++) {
      double sum = 0;
      for (int i = 0; i + 1 < n; i++) {
        sum += (a[i + 1] - a[i]) / (u[i + 1] - u[i]) * weight(u[i] - u[k], u[i + 1] - u[k]);
      }
      sum += first * (whole() / 2 - weight(0, u[k] - u[0]));
      sum += last * (whole() / 2 - weight(0, u[n - 1] - u[k]));
      phase[k] = sum / Math.PI;
    }
    return phase;
  }

  /** Integral of ln coth(|u|/2) over all u. */
  private static double whole() {
    return Math.PI * Math.PI / 2;
  }

  private static double weight(double from, double to) {
    return inner(to) - inner(from);
  }

  /** Integral of ln coth(|u|/2) from 0 to u: 2 sum exp terms of the odd series. */
  private static double inner(double u) {
    double x = Math.abs(u);
    double sum = 0;
    if (x > 0.3) {
      // ln coth(x/2) = 2 (e^-x + e^-3x / 3 + e^-5x / 5 + ...)
      for (int k = 1; k < 60; k += 2) {
        sum += (1 - Math.exp(-k * x)) / ((double) k * k);
      }
      // What the series leaves beyond k = 59 of the whole integral, whose terms are 1 / k^2.
      sum = 2 * sum + REST;
    } else if (x > 0) {
      // ln coth(x/2) = -ln(x/2) + x^2/12 - 7 x^4/1440 + ...
      sum = x - x * Math.log(x / 2) + x * x * x / 36 - 7 * Math.pow(x, 5) / 7200;
    }
    return u < 0 ? -sum : sum;
  }

  private static final double REST = rest();

  private static double rest() {
    double sum = Math.PI * Math.PI / 8;
    for (int k = 1; k < 60; k += 2) {
      sum -= 1 / ((double) k * k);
    }
    return 2 * sum;
  }

  private static double slope(double[] u, double[] a, double from, double to) {
    double n = 0;
    double su = 0;
    double sa = 0;
    double suu = 0;
    double sua = 0;
    for (int i = 0; i < u.length; i++) {
      if (u[i] >= from - 1e-9 && u[i] <= to + 1e-9) {
        n++;
        su += u[i];
        sa += a[i];
        suu += u[i] * u[i];
        sua += u[i] * a[i];
      }
    }
    return n < 2 ? 0 : (n * sua - su * sa) / (n * suu - su * su);
  }
}
