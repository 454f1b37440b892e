package org.trebleproof.file;

/** Someone else's text as one cell of a table (RFC 4180). */
public final class CsvCell {

  private CsvCell() {}

  /**
   * Text as a cell. A spreadsheet takes a cell that begins with one of {@code = + - @}, a tab or a
   * line's end for a formula and runs it; an apostrophe in front keeps it text.
   */
  public static String of(String text) {
    StringBuilder cell = new StringBuilder();
    text.codePoints().forEach(c -> cell.appendCodePoint(Character.isISOControl(c) ? ' ' : c));
    String line = cell.toString();
    String start = line.stripLeading();
    if (!start.isEmpty() && "=+-@\uff1d\uff0b\uff0d\uff20".indexOf(start.charAt(0)) >= 0) {
      line = "'" + line;
    }
    boolean plain = line.chars().noneMatch(c -> c == ',' || c == '"' || c == ';');
    return plain ? line : '"' + line.replace("\"", "\"\"") + '"';
  }
}
