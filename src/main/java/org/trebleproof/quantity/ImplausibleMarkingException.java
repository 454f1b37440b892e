package org.trebleproof.quantity;

/** A text that is a value of the right unit, but of a size that no such part has. */
public final class ImplausibleMarkingException extends TradeNotationException {

  public ImplausibleMarkingException(String sentence) {
    super(sentence);
  }
}
