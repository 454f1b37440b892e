package org.trebleproof.desktop.text;

import java.text.MessageFormat;
import java.util.Locale;
import java.util.ResourceBundle;

/**
 * The words on the screen. All of them stand in {@code texts.properties}; a translation is a file
 * beside it. What the reports say is said by {@code report}, here and in the pages alike.
 */
public final class Texts {

  private static final ResourceBundle BUNDLE =
      ResourceBundle.getBundle("org.trebleproof.desktop.texts", Locale.getDefault());

  private Texts() {}

  /** A minus sign as the plots write it, where a hyphen stands before a number. */
  public static String minus(String words) {
    return words.replaceAll("(?<![\\p{L}\\d])-(?=\\d)", "\u2212");
  }

  /** The text of a key. */
  public static String of(String key) {
    return BUNDLE.getString(key);
  }

  /**
   * The text of a key with its gaps filled.
   *
   * @param values for {@code {0}}, {@code {1}} and so on
   */
  public static String of(String key, Object... values) {
    return new MessageFormat(BUNDLE.getString(key), Locale.ROOT).format(values);
  }
}
