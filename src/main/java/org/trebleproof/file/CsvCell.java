package org.trebleproof.file;

/** Someone else's text as one cell of a table (RFC 4180). */
public final class CsvCell {

  private CsvCell() {}

  /**
   * Text as a cell. A spreadsheet takes a cell that begins with one of {@code = + - @}, a tab or a
   * line's end for a formula and runs it; an apostrophe in front keeps it text.
   */
  public static String of(String text) {
    String cell = harmless(text);
    boolean plain = cell.chars().noneMatch(c -> c == ',' || c == '"' || c == ';');
    return plain ? cell : inQuotes(cell);
  }

  /** The same, in quotation marks also where it could do without. */
  public static String quoted(String text) {
    return inQuotes(harmless(text));
  }

  private static String inQuotes(String cell) {
    return '"' + cell.replace("\"", "\"\"") + '"';
  }

  private static String harmless(String text) {
    StringBuilder cell = new StringBuilder();
    text.codePoints().forEach(c -> cell.appendCodePoint(Character.isISOControl(c) ? ' ' : c));
    String line = cell.toString();
    String start = line.stripLeading();
    boolean formula =
        !start.isEmpty() && "=+-@\uff1d\uff0b\uff0d\uff20".indexOf(start.charAt(0)) >= 0;
    return formula ? "'" + line : line;
  }
}
