package org.trebleproof.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.trebleproof.report.words.TextStyle;

class TerminalTest {

  private static Terminal terminal(OutputStream out, TextStyle style) {
    PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8);
    return new Terminal(stream, stream, StandardCharsets.UTF_8, style);
  }

  /** ECMA-48 commands, an operating system command, and a change of writing direction. */
  @Test
  void whatATerminalWouldObeyStaysOut() {
    for (TextStyle style : TextStyle.values()) {
      ByteArrayOutputStream out = new ByteArrayOutputStream();
      terminal(out, style).say("a\u001b[31mb\u001b]0;t\u0007c\rd\ne\u009b2Jf\u202eg\u2028h");
      assertEquals("a [31mb ]0;t c d e 2Jf g h\n", out.toString(StandardCharsets.UTF_8));
    }
  }

  @Test
  void theProgramsOwnWeightStays() {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    terminal(out, TextStyle.ANSI).say("\u001b[1mVerdict\u001b[0m");
    assertEquals("\u001b[1mVerdict\u001b[0m\n", out.toString(StandardCharsets.UTF_8));
  }

  @Test
  void outputThatDoesNotArriveIsNoticed() {
    OutputStream full =
        new OutputStream() {
          @Override
          public void write(int b) throws IOException {
            throw new IOException("No space left on device");
          }
        };
    Terminal lost = terminal(full, TextStyle.PLAIN);
    assertFalse(lost.hasLostOutput());
    lost.say("a verdict");
    assertTrue(lost.hasLostOutput());
  }
}
