package org.trebleproof.cli;

import org.trebleproof.cli.command.Terminal;

/** Entry point of the command line. */
public final class Main {

  private Main() {}

  /** Runs one command and ends the process with its exit code. */
  public static void main(String[] arguments) {
    Terminal terminal = Terminal.ofProcess(System.getenv());
    System.exit(new CommandLineFace(terminal).run(arguments));
  }
}
