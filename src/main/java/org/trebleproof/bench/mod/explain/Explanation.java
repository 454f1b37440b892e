package org.trebleproof.bench.mod.explain;

import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.mod.predict.Audibility;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * Where the treble went.
 *
 * @param title the guitar
 * @param lowHz lower edge of what is missed [Hz]
 * @param highHz upper edge [Hz]; the lower one again for a single frequency
 * @param treble what takes it
 * @param remedies single changes, the one of which most is heard first
 * @param sayings what is said about such things, held against this guitar
 * @param curves the guitar as it is, and the reference
 * @param findings what a person should be told
 */
public record Explanation(
    String title,
    double lowHz,
    double highHz,
    TrebleLoss treble,
    List<Remedy> remedies,
    List<Saying> sayings,
    CurvePair curves,
    List<Finding> findings) {

  public Explanation {
    remedies = List.copyOf(remedies);
    sayings = List.copyOf(sayings);
    findings = List.copyOf(findings);
  }

  /** What each cause takes, the worst first. */
  public List<TrebleLoss.Share> shares() {
    return treble.shares();
  }

  /** Whether only one frequency was asked for. */
  public boolean single() {
    return lowHz == highHz;
  }

  /**
   * What one cause takes over frequency.
   *
   * @param cause in words
   * @param loss at each frequency, never negative [dB]
   */
  public record ShareCurve(String cause, double[] loss) {}

  /**
   * A single change.
   *
   * @param change what to do, in words
   * @param atHand whether it needs nothing that the job does not have
   * @param gain what it gives back of the treble that is missed, as heard [dB]
   * @param most the third octave of it where most of the gain is heard
   */
  public record Remedy(String change, boolean atHand, Estimate gain, Audibility.Band most) {

    /** Whether something of it is heard to come back. */
    public Audibility.Grade audible() {
      return most.change() > 0 ? most.grade() : Audibility.Grade.INAUDIBLE;
    }

    /** The gain of that third octave [dB]. */
    public Estimate largest() {
      return new Estimate(most.change(), most.low(), most.high(), Unit.DECIBEL, Known.DERIVED);
    }

    /** What it does in words: how much at most, and whether that is heard. */
    public String words() {
      if (most.change() <= 0) {
        return "nothing comes back";
      }
      return EstimateText.full(largest())
          + " around "
          + String.format(
              Locale.ROOT,
              most.centreHz() < 995 ? "%.0f Hz" : "%.1f kHz",
              most.centreHz() < 995 ? most.centreHz() : most.centreHz() / 1000)
          + ", "
          + audible().words();
    }
  }

  /**
   * A saying of the trade (common practice, no source) and what this guitar says to it.
   *
   * @param saying as people put it
   * @param holds whether it holds here
   * @param answer one or two sentences with numbers
   */
  public record Saying(String saying, boolean holds, String answer) {}
}
