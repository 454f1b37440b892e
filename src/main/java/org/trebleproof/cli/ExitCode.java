package org.trebleproof.cli;

/** What the process says to the shell that called it. */
final class ExitCode {

  /** The job was done. */
  static final int DONE = 0;

  /** The job failed or was refused, or an error withdrew some of its numbers. */
  static final int FAILED = 1;

  /** The command line itself makes no sense. */
  static final int USAGE = 2;

  private ExitCode() {}
}
