package org.trebleproof.cli.command;

import java.io.IOException;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** One thing the command line can do. */
public interface Subcommand {

  /** Options, parameters and help text; built only for the subcommand that was asked for. */
  CommandSpec spec();

  /** As much of that as one line of the program's own help needs. */
  default CommandSpec summary() {
    return spec();
  }

  /**
   * Does it.
   *
   * @return the exit code
   */
  int run(ParseResult given, Terminal terminal) throws IOException;
}
