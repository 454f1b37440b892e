package org.trebleproof.bench.mod.predict;

import java.util.List;
import org.trebleproof.quantity.Resonance;

/**
 * Whether a change can be heard, held against published thresholds of listening.
 *
 * @param verdict in three grades
 * @param bands level change per third octave
 * @param loudest the band that changes most
 * @param shiftHz how far the resonance moves [Hz]; NaN without one before and after
 * @param leastShiftHz the smallest audible shift there [Hz]; NaN likewise
 */
public record Audibility(
    Grade verdict, List<Band> bands, Band loudest, double shiftHz, double leastShiftHz) {

  /**
   * Level change that counts as just noticeable [dB]. For a tone Jesteadt, Wier and Green (JASA 61,
   * 1977, from memory) give 0.93 dB at 40 dB above threshold, 0.69 at 60 and 0.50 at 80; one
   * decibel is the careful choice.
   */
  public static final double JUST_NOTICEABLE = 1;

  /**
   * Smallest audible change of a resonance's frequency over F / sqrt(Q): Gagne and Zurek,
   * Resonance-frequency discrimination, JASA 1988, for 300 to 2000 Hz and Q from 1 to 36.
   */
  public static final double RESONANCE_LIMIT = 0.079;

  /** Up to where that was measured [Hz]. */
  public static final double RESONANCE_MEASURED_TO = 2000;

  /** Twice the threshold is heard by everybody who listens for it. */
  private static final double PLAIN = 2;

  /** The threshold itself is no better known: from here on a change is on the edge. */
  private static final double NEAR = 0.8;

  /** How clearly a change is heard. */
  public enum Grade {
    INAUDIBLE("not to be heard"),
    EDGE("on the edge of hearing"),
    PLAIN("plainly audible");

    private final String words;

    Grade(String words) {
      this.words = words;
    }

    /** As a sentence says it. */
    public String words() {
      return words;
    }
  }

  /**
   * One third octave (IEC 61260-1:2014, base ten).
   *
   * @param centreHz its exact centre [Hz]
   * @param change of the mean power in it [dB]
   * @param low lower bound of its 95 % interval [dB]
   * @param high upper bound [dB]
   */
  public record Band(double centreHz, double change, double low, double high) {

    /** How clearly its change is heard: no more firmly than the interval allows. */
    public Grade grade() {
      return Audibility.grade(low, high, JUST_NOTICEABLE);
    }
  }

  /** The smallest audible shift of a resonance [Hz]. */
  public static double leastShift(double hz, double q) {
    return RESONANCE_LIMIT * hz / Math.sqrt(q);
  }

  /** Holds one guitar's change against the thresholds; either resonance may be null. */
  static Audibility of(List<Band> bands, Resonance before, Resonance after) {
    double shift = before == null || after == null ? Double.NaN : after.hz() - before.hz();
    return of(bands, before, after, new double[] {shift, shift});
  }

  /**
   * Holds a change against the thresholds.
   *
   * @param bands level changes
   * @param before resonance before
   * @param after resonance after; either may be null
   * @param shiftBounds between which the shift of the resonance lies [Hz]
   */
  static Audibility of(List<Band> bands, Resonance before, Resonance after, double[] shiftBounds) {
    Band loudest = bands.get(0);
    Grade verdict = Grade.INAUDIBLE;
    for (Band band : bands) {
      if (Math.abs(band.change()) > Math.abs(loudest.change())) {
        loudest = band;
      }
      verdict = band.grade().compareTo(verdict) > 0 ? band.grade() : verdict;
    }
    double shift = Double.NaN;
    double least = Double.NaN;
    if (before != null && after != null) {
      shift = after.hz() - before.hz();
      // The sharper of the two resonances decides what could be noticed.
      least = leastShift(before.hz(), Math.max(before.quality(), after.quality()));
      Grade moved = grade(shiftBounds[0], shiftBounds[1], least);
      verdict = moved.compareTo(verdict) > 0 ? moved : verdict;
    }
    return new Audibility(verdict, List.copyOf(bands), loudest, shift, least);
  }

  /** The grade that every value of an interval deserves at least, or at most. */
  private static Grade grade(double low, double high, double threshold) {
    double least = low <= 0 && high >= 0 ? 0 : Math.min(Math.abs(low), Math.abs(high));
    double most = Math.max(Math.abs(low), Math.abs(high));
    if (least >= PLAIN * threshold) {
      return Grade.PLAIN;
    }
    return most < NEAR * threshold ? Grade.INAUDIBLE : Grade.EDGE;
  }
}
