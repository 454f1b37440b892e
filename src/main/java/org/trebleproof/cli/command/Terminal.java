package org.trebleproof.cli.command;

import java.io.PrintStream;
import java.nio.charset.Charset;
import java.util.Map;
import org.trebleproof.report.words.TextStyle;

/**
 * Where a command speaks.
 *
 * @param out for results
 * @param err for errors, and for the verdict where the result itself goes to {@code out}
 * @param charset what both can show; signs outside it are written in plain letters
 * @param style how {@code out} sets off what matters
 */
public record Terminal(PrintStream out, PrintStream err, Charset charset, TextStyle style) {

  /** The terminal of this process. */
  public static Terminal ofProcess(Map<String, String> environment) {
    boolean person = attended();
    boolean plain =
        !environment.getOrDefault("NO_COLOR", "").isEmpty()
            || "dumb".equals(environment.get("TERM"));
    Charset charset = person ? System.console().charset() : Charset.defaultCharset();
    return new Terminal(
        new PrintStream(System.out, true, charset),
        new PrintStream(System.err, true, charset),
        charset,
        person && !plain ? TextStyle.ANSI : TextStyle.PLAIN);
  }

  /** Whether a person sits at this process and can be asked. */
  public static boolean attended() {
    // Newer Java has a console also where the output goes to a file; the launcher knows better.
    return System.console() != null && !"false".equals(System.getProperty("trebleproof.terminal"));
  }

  /** A line of result. */
  public void say(String line) {
    out.println(harmless(readable(line)));
  }

  /** A line about what went wrong. */
  public void complain(String line) {
    err.println(harmless(readable(line)));
  }

  /** Whether something that was said or written to standard output did not arrive. */
  public boolean hasLostOutput() {
    return out.checkError();
  }

  /**
   * The line without what a terminal would obey: titles and names of files are other people's text.
   * Only this program's own renditions stay.
   */
  private String harmless(String line) {
    StringBuilder plain = new StringBuilder(line.length());
    for (int i = 0; i < line.length(); ) {
      int own = style == TextStyle.ANSI ? TextStyle.lengthOfRendition(line, i) : 0;
      if (own > 0) {
        plain.append(line, i, i + own);
        i += own;
        continue;
      }
      int sign = line.codePointAt(i);
      plain.appendCodePoint(isCommand(sign) ? ' ' : sign);
      i += Character.charCount(sign);
    }
    return plain.toString();
  }

  /** Controls, ends of lines, and what turns the direction of writing (Unicode, UAX 9). */
  private static boolean isCommand(int sign) {
    int type = Character.getType(sign);
    return Character.isISOControl(sign)
        || type == Character.LINE_SEPARATOR
        || type == Character.PARAGRAPH_SEPARATOR
        || sign >= 0x202a && sign <= 0x202e
        || sign >= 0x2066 && sign <= 0x2069;
  }

  /** The same text with signs that the charset lacks in plain letters. */
  String readable(String text) {
    if (charset.newEncoder().canEncode(text)) {
      return text;
    }
    return text.replace("±", "+-")
        .replace("µ", "u")
        .replace("Ω", "ohm")
        .replace("→", "->")
        .replace("–", "-")
        .replace("−", "-")
        .replace(" °C", " C")
        .replace("°", " deg");
  }
}
