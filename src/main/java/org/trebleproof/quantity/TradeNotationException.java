package org.trebleproof.quantity;

/** A text that is no trade value, or not one of the quantity it should be. */
public class TradeNotationException extends Refusal {

  public TradeNotationException(String sentence) {
    super(sentence);
  }
}
