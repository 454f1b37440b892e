package org.trebleproof.bench.job;

import org.trebleproof.quantity.Refusal;

/** A job file that cannot be used; the message is one sentence for a person. */
public class JobFileException extends Refusal {

  public JobFileException(String sentence) {
    super(sentence);
  }
}
