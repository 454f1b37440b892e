package org.trebleproof.cli;

import org.trebleproof.quantity.Refusal;

/** The command line makes no sense; the message says why and what to type instead. */
final class WrongUsage extends Refusal {

  WrongUsage(String sentence) {
    super(sentence);
  }
}
