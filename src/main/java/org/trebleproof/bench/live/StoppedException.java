package org.trebleproof.bench.live;

import org.trebleproof.quantity.Refusal;

/** The person stopped the measurement; the sound has faded out. */
public class StoppedException extends Refusal {

  public StoppedException(String sentence) {
    super(sentence);
  }
}
