package org.trebleproof.report.schematic;

/**
 * What stands beside a symbol.
 *
 * @param value such as {@code 250 kΩ ±20 %}; empty for nothing
 * @param guess whether it is assumed
 * @param note a word on how it is known; empty for none
 */
public record Inscription(String value, boolean guess, String note) {
  /** Nothing beside it. */
  public static final Inscription NONE = new Inscription("", false, "");
}
