package org.trebleproof.desktop.place.piece;

import javafx.util.StringConverter;
import org.trebleproof.desktop.text.Texts;

/** Shows words of a file format by their names on the screen. */
public final class Named extends StringConverter<String> {

  private final String family;

  /**
   * A family of texts.
   *
   * @param family beginning of the keys
   */
  public Named(String family) {
    this.family = family;
  }

  @Override
  public String toString(String word) {
    return word == null || word.isEmpty() ? "" : Texts.of(family + word);
  }

  @Override
  public String fromString(String text) {
    throw new UnsupportedOperationException("only shown, never typed");
  }
}
