package org.trebleproof.cli.command;

/** What the process says to the shell that called it. */
public final class ExitCode {

  /** The job was done. */
  public static final int DONE = 0;

  /** The job failed or was refused, or an error withdrew some of its numbers. */
  public static final int FAILED = 1;

  /** The command line itself makes no sense. */
  public static final int USAGE = 2;

  private ExitCode() {}
}
