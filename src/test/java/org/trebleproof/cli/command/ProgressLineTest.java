package org.trebleproof.cli.command;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.trebleproof.report.words.TextStyle;

class ProgressLineTest {

  private final ByteArrayOutputStream err = new ByteArrayOutputStream();
  private final AtomicLong seconds = new AtomicLong();

  private ProgressLine line(TextStyle style) {
    PrintStream stream = new PrintStream(err, true, StandardCharsets.UTF_8);
    return new ProgressLine(
        new Terminal(stream, stream, StandardCharsets.UTF_8, style),
        () -> seconds.get() * 1_000_000_000L);
  }

  private String said() {
    return err.toString(StandardCharsets.UTF_8);
  }

  @Test
  void isQuietUntilSomeoneHasWaited() {
    ProgressLine line = line(TextStyle.ANSI);
    line.at(0.1);
    assertEquals("", said());
    seconds.set(3);
    line.at(0.25);
    line.at(0.26);
    assertEquals("\r 25 % done ", said());
    line.end();
    assertEquals("\r 25 % done \r             \r", said());
  }

  @Test
  void isQuietWhereNobodySits() {
    ProgressLine line = line(TextStyle.PLAIN);
    seconds.set(30);
    line.at(0.5);
    line.end();
    assertEquals("", said());
  }
}
