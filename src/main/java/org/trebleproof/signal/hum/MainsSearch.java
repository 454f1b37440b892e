package org.trebleproof.signal.hum;

import java.util.Optional;
import org.apache.commons.math3.util.ArithmeticUtils;

/**
 * Finds the frequency of the mains in a recording of hum, from the series of its harmonics.
 *
 * <p>Searched are 47 to 53 Hz and 57 to 63 Hz: a 50 Hz grid keeps within 47 to 52 Hz at all times
 * (EN 50160, synchronous connection); the same span is taken about 60 Hz.
 */
public final class MainsSearch {

  private static final double[][] SPANS = {{47, 53}, {57, 63}};

  private static final int HARMONICS = 20;
  private static final double GRID = 0.0025;

  /** Recordings of one visit are minutes apart; a grid moves by less than this meanwhile [Hz]. */
  private static final double WANDER = 0.1;

  /** Power over noise that noise and fences of bursts seldom reach. */
  private static final double PLAIN = 10;

  /**
   * A series counts from here: one line 65 times the noise, or two of 17 times. Noise reaches 12
   * times in a hundred thousand tries.
   */
  private static final double LEAST_SCORE = 4;

  /**
   * Rectified mains has every second harmonic. A series that has only every third, fourth or fifth
   * is a string's.
   */
  private static final int RECTIFIED = 2;

  private static final double BURST_REACH = 3;

  /** Feet of a radio's strong lines reach this far, in bins. */
  private static final double MASK = 3.5;

  /** Nor do sidelines count that come of a recorder counting edges in whole samples [Hz]. */
  private static final double MASK_HZ = 0.65;

  private final LineSpectrum lines;
  private final Optional<Frames> masked;
  private final Optional<Mains> found;

  /**
   * Searches one recording.
   *
   * @param lines its spectrum in one piece
   * @param masked frames of a radio whose lines do not count
   */
  MainsSearch(LineSpectrum lines, Optional<Frames> masked) {
    this.lines = lines;
    this.masked = masked;
    Tally best = Tally.NONE;
    for (double[] span : SPANS) {
      best = best(span[0], span[1], best);
    }
    found = refined(best);
  }

  /**
   * The mains as found.
   *
   * @param hz frequency of the fundamental [Hz]
   * @param low lower bound of the 95 % interval [Hz]
   * @param high upper bound of the 95 % interval [Hz]
   * @param score amplitude of its lines together
   */
  public record Mains(double hz, double low, double high, double score) {}

  /** The mains as found in both spans; empty when no series of lines stands out. */
  public Optional<Mains> found() {
    return found;
  }

  /** Searches close to what another recording of the same visit showed. */
  public Optional<Mains> near(double hz) {
    return refined(best(hz - WANDER, hz + WANDER, Tally.NONE));
  }

  private Tally best(double from, double to, Tally so) {
    Tally best = so;
    for (double hz = from; hz <= to; hz += GRID) {
      Tally here = onBeacons(hz) ? Tally.NONE : tally(hz);
      if (here.plainness() >= LEAST_SCORE && here.amplitude() > best.amplitude()) {
        best = here;
      }
    }
    return best;
  }

  /** Whether all harmonics would lie on lines of a wireless network's beacons. */
  private static boolean onBeacons(double hz) {
    double rate = FrameClock.BEACONS.rate();
    return Math.abs(hz - rate * Math.round(hz / rate)) < 2 * GRID;
  }

  private Optional<Mains> refined(Tally best) {
    return best == Tally.NONE ? Optional.empty() : Optional.of(refine(best.hz(), best.amplitude()));
  }

  /**
   * What stands out at the harmonics of a frequency.
   *
   * @param amplitude sum of the amplitudes of the lines that stand out. Not of their logarithms:
   *     the fence of a phone's bursts has lines at all multiples of 50 Hz, many but weak
   * @param plainness sum of the logarithms of how far they do
   */
  private record Tally(double hz, double amplitude, double plainness) {
    static final Tally NONE = new Tally(0, -1, 0);
  }

  private Tally tally(double hz) {
    double amplitude = 0;
    double plainness = 0;
    int divisor = 0;
    for (int k = 1; k <= HARMONICS; k++) {
      double over = at(k * hz);
      if (over > PLAIN) {
        amplitude += lines.amplitude(k * hz);
        plainness += Math.log1p(over - PLAIN);
        divisor = ArithmeticUtils.gcd(divisor, k);
      }
    }
    return divisor > RECTIFIED ? Tally.NONE : new Tally(hz, amplitude, plainness);
  }

  /** Power over noise at a frequency; a phone's bursts hide what lies beside their lines. */
  private double at(double hz) {
    double bursts = Math.abs(hz - BurstSearch.RATE * Math.round(hz / BurstSearch.RATE));
    if (hz > BurstSearch.RATE / 2 && bursts < BURST_REACH) {
      return 0;
    }
    if (masked.isEmpty()) {
      return lines.at(hz);
    }
    double reach = Math.max(MASK_HZ, MASK * lines.binWidth());
    boolean foot = masked.get().covers(hz, reach) || !lines.isPeakAt(hz);
    return foot ? 0 : lines.at(hz);
  }

  /** Peak frequencies over their harmonic numbers, weighted as their precision grows. */
  private Mains refine(double hz, double score) {
    double binWidth = lines.binWidth();
    double estimate = hz;
    double variance = 0;
    for (int pass = 0; pass < 2; pass++) {
      double weights = 0;
      double sum = 0;
      double squares = 0;
      int count = 0;
      for (int k = 1; k <= 2 * HARMONICS; k++) {
        double peak = lines.peak(k * estimate, 2 * binWidth);
        double over = peak > 0 ? at(peak) : 0;
        if (over > 20) {
          // a line's frequency variance falls with its power over noise, and is divided by k^2;
          // very strong lines are limited by the mains' own wander, not by noise
          double weight = (double) k * k * Math.min(over, 1e4);
          weights += weight;
          sum += weight * peak / k;
          squares += weight * (peak / k) * (peak / k);
          count++;
        }
      }
      if (count > 0) {
        estimate = sum / weights;
        double scatter = Math.max(0, squares / weights - estimate * estimate);
        double noise = 0.5 * binWidth * binWidth / weights;
        variance = noise + (count > 1 ? scatter / (count - 1) : 1e-4 * binWidth * binWidth);
      } else {
        variance = binWidth * binWidth / 4;
      }
    }
    double half = 1.96 * Math.sqrt(variance) + 5e-4;
    return new Mains(estimate, estimate - half, estimate + half, score);
  }
}
