package org.trebleproof.cli;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.report.words.TextStyle;

/** What a command line said and how it ended. */
record Outcome(int exitCode, String out, String err) {

  static Outcome of(String... arguments) {
    return of(StandardCharsets.UTF_8, arguments);
  }

  static Outcome of(Charset charset, String... arguments) {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    Terminal terminal =
        new Terminal(
            new PrintStream(out, true, charset),
            new PrintStream(err, true, charset),
            charset,
            TextStyle.PLAIN);
    int code = new CommandLineFace(terminal).run(arguments);
    return new Outcome(code, out.toString(charset), err.toString(charset));
  }
}
