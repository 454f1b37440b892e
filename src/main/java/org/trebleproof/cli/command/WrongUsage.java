package org.trebleproof.cli.command;

import org.trebleproof.quantity.Refusal;

/** The command line makes no sense; the message says why and what to type instead. */
public final class WrongUsage extends Refusal {

  public WrongUsage(String sentence) {
    super(sentence);
  }
}
