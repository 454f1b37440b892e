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
    // Newer Java has a console also where the output goes to a file; the launcher knows better.
    boolean person =
        System.console() != null && !"false".equals(System.getProperty("trebleproof.terminal"));
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

  /** A line of result. */
  public void say(String line) {
    out.println(readable(line));
  }

  /** A line about what went wrong. */
  public void complain(String line) {
    err.println(readable(line));
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
