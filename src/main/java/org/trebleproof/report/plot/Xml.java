package org.trebleproof.report.plot;

/** Text made safe for XML and HTML. */
public final class Xml {

  private Xml() {}

  /** The text with markup characters escaped; characters that XML cannot hold become U+FFFD. */
  public static String escaped(String text) {
    StringBuilder safe = new StringBuilder(text.length() + 16);
    text.codePoints()
        .forEach(
            c -> {
              switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                default -> safe.appendCodePoint(allowed(c) ? c : 0xFFFD);
              }
            });
    return safe.toString();
  }

  /** XML 1.0, fifth edition, production 2. */
  private static boolean allowed(int c) {
    return c == '\t'
        || c == '\n'
        || c == '\r'
        || c >= 0x20 && c <= 0xD7FF
        || c >= 0xE000 && c <= 0xFFFD
        || c >= 0x10000;
  }
}
