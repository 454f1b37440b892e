package org.trebleproof.bench.mod;

import java.util.List;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;

/**
 * Where the treble went.
 *
 * @param title the guitar
 * @param lowHz lower edge of the band [Hz]
 * @param highHz upper edge [Hz]; the lower one again for a single frequency
 * @param loss of level in the band against the bare coil without losses [dB]
 * @param shares of that loss; they add up to it
 * @param remedies single changes, the one that gives most back first
 * @param sayings what is said about such things, held against this guitar
 * @param curves the guitar as it is, and its bare coil without losses
 * @param findings what a person should be told
 */
public record Explanation(
    String title,
    double lowHz,
    double highHz,
    Estimate loss,
    List<Share> shares,
    List<Remedy> remedies,
    List<Saying> sayings,
    CurvePair curves,
    List<Finding> findings) {

  public Explanation {
    shares = List.copyOf(shares);
    remedies = List.copyOf(remedies);
    sayings = List.copyOf(sayings);
    findings = List.copyOf(findings);
  }

  /**
   * What one cause takes, averaged over every order in which the causes could have come (its
   * Shapley value).
   *
   * @param cause in words
   * @param loss [dB]; negative where it brings treble into the band
   */
  public record Share(String cause, Estimate loss) {}

  /**
   * What one cause takes over frequency.
   *
   * @param cause in words
   * @param loss at each frequency [dB]; negative where it brings level
   */
  public record ShareCurve(String cause, double[] loss) {}

  /**
   * A single change.
   *
   * @param change what to do, in words
   * @param gain of level in the band [dB]
   * @param audible whether it can be heard
   */
  public record Remedy(String change, Estimate gain, Audibility.Grade audible) {}

  /**
   * A saying of the trade (common practice, no source) and what this guitar says to it.
   *
   * @param saying as people put it
   * @param holds whether it holds here
   * @param answer one or two sentences with numbers
   */
  public record Saying(String saying, boolean holds, String answer) {}
}
