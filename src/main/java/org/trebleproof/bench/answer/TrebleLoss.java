package org.trebleproof.bench.answer;

import java.util.List;
import org.trebleproof.quantity.Estimate;

/**
 * What takes the treble of one wiring, against a reference that somebody at the bench would choose.
 *
 * @param wiring name of the setup, or what the guitar is called
 * @param against the reference in words
 * @param hz centre of the third octave where the worst cause takes most of what is heard [Hz]
 * @param shares what each cause takes, the worst first; none is negative
 * @param there what they take together in that third octave [dB]
 * @param heard the same over the whole treble, as heard [dB]
 */
public record TrebleLoss(
    String wiring, String against, double hz, List<Share> shares, Estimate there, Estimate heard) {

  public TrebleLoss {
    shares = List.copyOf(shares);
  }

  /**
   * What one cause takes. Shares add up to what all take together.
   *
   * @param cause such as {@code volume pot}
   * @param name as a sentence says it, such as {@code 9 m lead}
   * @param there in the third octave in question [dB]
   * @param heard over the whole treble, as heard [dB]
   */
  public record Share(String cause, String name, Estimate there, Estimate heard) {}
}
