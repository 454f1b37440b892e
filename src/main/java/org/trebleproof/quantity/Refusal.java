package org.trebleproof.quantity;

/**
 * Something given to the program cannot be used. The message is one sentence on one line that names
 * the file, key or part, says what is wrong and what to do; it is meant for a person as it stands.
 */
public class Refusal extends RuntimeException {

  /** A refusal in one sentence; line breaks and control characters are taken out. */
  public Refusal(String sentence) {
    super(oneLine(sentence));
  }

  /** A refusal with the exception behind it, which only a debugger shows. */
  public Refusal(String sentence, Throwable cause) {
    super(oneLine(sentence), cause);
  }

  /** Someone else's text in quotation marks, shortened and without control characters. */
  public static String quote(String text) {
    String line = oneLine(text);
    return '"' + (line.length() > 60 ? line.substring(0, 57) + "..." : line) + '"';
  }

  private static String oneLine(String text) {
    StringBuilder line = new StringBuilder(text.length());
    text.codePoints()
        .forEach(
            c -> {
              int type = Character.getType(c);
              boolean invisible =
                  Character.isISOControl(c)
                      || type == Character.LINE_SEPARATOR
                      || type == Character.PARAGRAPH_SEPARATOR
                      || type == Character.SURROGATE;
              line.appendCodePoint(invisible ? ' ' : c);
            });
    return line.toString();
  }
}
