package org.trebleproof.cli.command;

import java.util.Locale;
import java.util.function.LongSupplier;
import org.trebleproof.report.words.TextStyle;

/**
 * How far a job is, on one line that is drawn over and over, for a person who has waited a while;
 * nothing where nobody sits at a terminal.
 */
public final class ProgressLine {

  private static final long PATIENCE = 2_000_000_000L;
  private static final long BETWEEN = 200_000_000L;

  private final Terminal terminal;
  private final LongSupplier nanos;
  private final long begun;
  private long shown;
  private boolean drawn;

  /**
   * @param nanos a clock [ns]
   */
  public ProgressLine(Terminal terminal, LongSupplier nanos) {
    this.terminal = terminal;
    this.nanos = nanos;
    begun = nanos.getAsLong();
    shown = begun;
  }

  /** The job is so far, 0 to 1. */
  public synchronized void at(double share) {
    long now = nanos.getAsLong();
    if (terminal.style() != TextStyle.ANSI || now - begun < PATIENCE || now - shown < BETWEEN) {
      return;
    }
    shown = now;
    drawn = true;
    terminal.err().print(String.format(Locale.ROOT, "\r%3.0f %% done ", 100 * share));
    terminal.err().flush();
  }

  /** Takes the line away. */
  public synchronized void end() {
    if (drawn) {
      terminal.err().print("\r             \r");
      terminal.err().flush();
      drawn = false;
    }
  }
}
