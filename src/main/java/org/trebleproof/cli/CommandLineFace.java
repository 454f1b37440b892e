package org.trebleproof.cli;

import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;
import java.util.function.Supplier;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.Version;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.hum.HumCommand;
import org.trebleproof.cli.job.AdviseCommand;
import org.trebleproof.cli.job.CompareCommand;
import org.trebleproof.cli.job.FitCommand;
import org.trebleproof.cli.job.JobOptions;
import org.trebleproof.cli.job.WriteJobCommand;
import org.trebleproof.cli.live.CalibrateCommand;
import org.trebleproof.cli.live.CheckCommand;
import org.trebleproof.cli.live.DevicesCommand;
import org.trebleproof.cli.live.MeasureCommand;
import org.trebleproof.cli.live.RecordCommand;
import org.trebleproof.cli.live.SweepCommand;
import org.trebleproof.cli.mod.DemonstrateCommand;
import org.trebleproof.cli.mod.ExplainCommand;
import org.trebleproof.cli.mod.FindPartsCommand;
import org.trebleproof.cli.mod.IdentifyCommand;
import org.trebleproof.cli.mod.ListenCommand;
import org.trebleproof.cli.mod.PredictCommand;
import org.trebleproof.cli.shelf.ShelfCommand;
import org.trebleproof.cli.shelf.ShelfCommands;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParseResult;
import picocli.CommandLine.UnmatchedArgumentException;

/**
 * Finds the subcommand, runs it, and is the one place that turns whatever went wrong into a
 * sentence and an exit code. Only the subcommand that was asked for is built, because a command
 * that is typed fifty times a day should start at once.
 */
final class CommandLineFace {

  /** The one command that has commands of its own. */
  private static final String SHELF = "shelf";

  private static final Map<String, Supplier<Subcommand>> SUBCOMMANDS = new LinkedHashMap<>();

  static {
    SUBCOMMANDS.put("write-job", WriteJobCommand::new);
    SUBCOMMANDS.put("fit", FitCommand::new);
    SUBCOMMANDS.put("compare", CompareCommand::new);
    SUBCOMMANDS.put("advise", AdviseCommand::new);
    SUBCOMMANDS.put("predict", PredictCommand::new);
    SUBCOMMANDS.put("explain", ExplainCommand::new);
    SUBCOMMANDS.put("identify", IdentifyCommand::new);
    SUBCOMMANDS.put("find-parts", FindPartsCommand::new);
    SUBCOMMANDS.put("listen", ListenCommand::new);
    SUBCOMMANDS.put("demonstrate", DemonstrateCommand::new);
    SUBCOMMANDS.put("sweep", SweepCommand::new);
    SUBCOMMANDS.put("devices", DevicesCommand::new);
    SUBCOMMANDS.put("record", RecordCommand::new);
    SUBCOMMANDS.put("measure", MeasureCommand::new);
    SUBCOMMANDS.put("calibrate", CalibrateCommand::new);
    SUBCOMMANDS.put("check", CheckCommand::new);
    SUBCOMMANDS.put("hum", HumCommand::new);
    SUBCOMMANDS.put(SHELF, ShelfCommand::new);
  }

  /** Names of the commands. */
  static Set<String> names() {
    Set<String> names = new LinkedHashSet<>(SUBCOMMANDS.keySet());
    ShelfCommands.BY_NAME.keySet().forEach(name -> names.add(SHELF + " " + name));
    return names;
  }

  /** What a command takes. */
  static CommandSpec spec(String command) {
    return maker(command.split(" ")).get().spec();
  }

  /** Who builds a command; those of the shelf are looked at only where one is asked for. */
  private static Supplier<Subcommand> maker(String... words) {
    return words.length > 1 ? ShelfCommands.BY_NAME.get(words[1]) : SUBCOMMANDS.get(words[0]);
  }

  private final Terminal terminal;

  CommandLineFace(Terminal terminal) {
    this.terminal = terminal;
  }

  /** Runs one command line and returns its exit code; never throws. */
  int run(String... arguments) {
    int code = runOrSayWhyNot(arguments);
    if (!terminal.hasLostOutput()) {
      return code;
    }
    complain(
        "standard output did not take the whole result: the disk is full, or the program that"
            + " reads it has ended; write it elsewhere and run this again.",
        code);
    return code == ExitCode.DONE ? ExitCode.FAILED : code;
  }

  private int runOrSayWhyNot(String... arguments) {
    String called = "trebleproof";
    try {
      int words = wordsOfCommand(arguments);
      if (words > 0) {
        String[] name = Arrays.copyOf(arguments, words);
        called += " " + String.join(" ", name);
        return runSubcommand(
            called, maker(name).get(), Arrays.copyOfRange(arguments, words, arguments.length));
      }
      return runTop(arguments);
    } catch (ParameterException e) {
      return complain(words(e) + " (see " + called + " --help)", ExitCode.USAGE);
    } catch (WrongUsage e) {
      return complain(e.getMessage(), ExitCode.USAGE);
    } catch (Refusal e) {
      return complain(e.getMessage(), ExitCode.FAILED);
    } catch (InvalidPathException e) {
      return complain(e.getInput() + ": this is not a file name", ExitCode.USAGE);
    } catch (UncheckedIOException e) {
      return complain(sentence(e.getCause()), ExitCode.FAILED);
    } catch (IOException e) {
      return complain(sentence(e), ExitCode.FAILED);
    } catch (OutOfMemoryError e) {
      return complain(
          "not enough memory for these captures; start with more, such as"
              + " TREBLEPROOF_OPTS=-Xmx1g trebleproof …",
          ExitCode.FAILED);
    } catch (RuntimeException | StackOverflowError e) {
      return complain(
          "this should not happen, please report it with the job that caused it: "
              + oneLine(String.valueOf(e))
              + place(e),
          ExitCode.FAILED);
    }
  }

  /** How many words name the command; 0 where there is none. */
  private static int wordsOfCommand(String... arguments) {
    if (arguments.length > 1 && arguments[0].equals(SHELF) && !arguments[1].startsWith("-")) {
      if (!ShelfCommands.BY_NAME.containsKey(arguments[1])) {
        throw new WrongUsage(
            "there is no command "
                + SHELF
                + " "
                + Refusal.quote(arguments[1])
                + JsonSection.nearest(arguments[1], ShelfCommands.BY_NAME.keySet())
                    .map(near -> ": did you mean shelf " + near + "?")
                    .orElse(": see trebleproof shelf --help."));
      }
      return 2;
    }
    return arguments.length > 0 && SUBCOMMANDS.containsKey(arguments[0]) ? 1 : 0;
  }

  private int runSubcommand(String name, Subcommand subcommand, String[] arguments)
      throws IOException {
    CommandSpec spec = subcommand.spec().name(name);
    spec.addOption(helpOption());
    checkOptions(spec, arguments);
    ParseResult given = new CommandLine(spec).parseArgs(arguments);
    if (given.isUsageHelpRequested()) {
      usage(spec);
      return ExitCode.DONE;
    }
    return subcommand.run(given, terminal);
  }

  /**
   * Refuses an option there is not before anything else is found wrong, for it may be the cause.
   */
  private static void checkOptions(CommandSpec spec, String[] arguments) {
    for (String argument : arguments) {
      if (argument.equals("--")) {
        return;
      }
      String name = argument.replaceFirst("=.*", "");
      if (name.startsWith("--") && !spec.optionsMap().containsKey(name)) {
        throw new WrongUsage(
            "there is no option "
                + name
                + JsonSection.nearest(name, spec.optionsMap().keySet())
                    .filter(near -> near.startsWith("--"))
                    .map(near -> ": did you mean " + near + "?")
                    .orElse(": see " + spec.name() + " --help."));
      }
    }
  }

  /** What is wrong with a command line that does not begin with a command. */
  private static String noCommand(String word) {
    Path file = Path.of(word);
    if (word.endsWith(".json") || JobOptions.isSound(file)) {
      return "say what to do with " + word + "; to fit it: trebleproof fit " + word;
    }
    return "there is no command "
        + word
        + JsonSection.nearest(word, SUBCOMMANDS.keySet())
            .map(near -> ": did you mean " + near + "?")
            .orElse(": see trebleproof --help.");
  }

  private static String words(ParameterException e) {
    if (e instanceof UnmatchedArgumentException unmatched) {
      String word = unmatched.getUnmatched().get(0);
      if (word.startsWith("-")) {
        return "there is no option " + word;
      }
      return Refusal.quote(word)
          + " is one word too many: leave it out, or put a name with spaces in quotation marks";
    }
    return oneLine(e.getMessage());
  }

  private int runTop(String[] arguments) {
    if (arguments.length > 0 && !arguments[0].startsWith("-")) {
      throw new WrongUsage(noCommand(arguments[0]));
    }
    CommandSpec spec = TopCommand.spec(SUBCOMMANDS);
    spec.addOption(helpOption());
    ParseResult given = new CommandLine(spec).parseArgs(arguments);
    if (given.isVersionHelpRequested()) {
      terminal.say("trebleproof " + Version.text());
      return ExitCode.DONE;
    }
    if (given.isUsageHelpRequested()) {
      usage(spec);
      return ExitCode.DONE;
    }
    usage(spec);
    return ExitCode.USAGE;
  }

  private void usage(CommandSpec spec) {
    StringWriter text = new StringWriter();
    spec.commandLine().usage(new PrintWriter(text), CommandLine.Help.Ansi.OFF);
    text.toString().stripTrailing().lines().forEach(terminal::say);
  }

  private int complain(String sentence, int exitCode) {
    terminal.complain("trebleproof: " + sentence);
    return exitCode;
  }

  private static OptionSpec helpOption() {
    return OptionSpec.builder("-h", "--help")
        .usageHelp(true)
        .description("Show this help.")
        .build();
  }

  private static String sentence(IOException e) {
    if (e instanceof NoSuchFileException || e instanceof FileNotFoundException) {
      return oneLine(e.getMessage()) + ": there is no such file";
    }
    if (e instanceof AccessDeniedException) {
      return oneLine(e.getMessage()) + ": you have no permission to read or write it";
    }
    if (e instanceof FileSystemException f && f.getReason() == null) {
      return f.getFile() + ": it cannot be read or written";
    }
    return oneLine(e.getMessage());
  }

  private static String oneLine(String message) {
    return message == null ? "no further word" : message.strip().replaceAll("\\s*\\R\\s*", "; ");
  }

  /** Where in the program it happened, which a report needs and a stack trace would drown. */
  private static String place(Throwable e) {
    for (StackTraceElement element : e.getStackTrace()) {
      if (element.getClassName().startsWith("org.trebleproof.")) {
        return " at " + element.getFileName() + ":" + element.getLineNumber();
      }
    }
    return "";
  }
}
