package org.trebleproof.cli.job;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.job.JobSketch;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.file.FilesInUse;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** {@code write-job}: a first job file from a few options, or from questions at a terminal. */
public final class WriteJobCommand implements Subcommand {

  private static final String PICKUP = "--pickup-resistance";
  private static final String TITLE = "--title";

  private final Supplier<Optional<BufferedReader>> keys;

  public WriteJobCommand() {
    this(
        () ->
            Terminal.attended()
                ? Optional.of(
                    new BufferedReader(
                        new InputStreamReader(
                            System.in, java.nio.charset.Charset.defaultCharset())))
                : Optional.empty());
  }

  /**
   * @param keys what a person types; empty where nobody sits there
   */
  public WriteJobCommand(Supplier<Optional<BufferedReader>> keys) {
    this.keys = keys;
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Writes a first job file.",
            "Without --fixture it asks, where a person sits at a terminal.")
        .footer(
            "",
            "Example: a pot swap under an exciter coil, three recordings still to be made",
            "  trebleproof write-job swap.json --fixture exciter \\",
            "      --now \"volume=250k,tone=250k,toneCapacitor=22n,cable=3 m\" \\",
            "      --then volume=500k --clip \"1n 1%%\"");
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("FILE")
            .index("0")
            .arity("1")
            .required(true)
            .type(Path.class)
            .description("The job file to write.")
            .build());
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("RECORDING")
            .index("1..*")
            .arity("0..*")
            .type(List.class)
            .auxiliaryTypes(Path.class)
            .description(
                "Recordings: before, before with the capacitor clipped on if there is one, after."
                    + " Those that are missing get a name.")
            .build());
    JobOptions.addBench(spec);
    SketchOptions.addTo(spec, "What is wired:");
    spec.addOption(text(PICKUP, "OHM", "The coil by itself, such as \"5.7k 1%%\"."));
    spec.addOption(text(TITLE, "WORDS", "What the job is about."));
    JobOptions.addHeading(spec);
    return spec;
  }

  private static OptionSpec text(String name, String label, String description) {
    return OptionSpec.builder(name)
        .paramLabel(label)
        .type(String.class)
        .description(description)
        .build();
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    Path file = given.matchedPositionalValue(0, null);
    FilesInUse files = new FilesInUse();
    usage(() -> files.writes("", file));
    Answers answers = answers(given, terminal);
    List<Path> recordings = given.matchedPositionalValue(1, List.of());
    JobSketch sketch =
        new JobSketch(
            answers.now, answers.then, answers.clip, answers.pickup, names(file, recordings));
    if (recordings.size() > sketch.captures().size()) {
      throw new WrongUsage(
          "this job has "
              + sketch.captures().size()
              + " recordings ("
              + String.join(", ", sketch.captures())
              + "), but "
              + recordings.size()
              + " are named.");
    }
    Map<String, Object> content =
        JobReader.with(JobOptions.with(given, answers.kind, sketch), answers.more);
    Optional.ofNullable(given.<String>matchedOptionValue(TITLE, null))
        .ifPresent(title -> content.put("title", title));
    Job job = readable(file, content);
    usage(() -> files.reads(recordings));
    files.write("", JsonWriter.file(json -> json.content(inOrder(content))));
    say(terminal, file, job);
    return ExitCode.DONE;
  }

  /** Whose guitar it is stands at the top of a work order. */
  private static Map<String, Object> inOrder(Map<String, Object> content) {
    Map<String, Object> ordered = new LinkedHashMap<>();
    for (String key : List.of(JsonFile.VERSION_KEY, "title", "customer", "instrument", "bench")) {
      if (content.containsKey(key)) {
        ordered.put(key, content.get(key));
      }
    }
    content.forEach(ordered::putIfAbsent);
    return ordered;
  }

  /** A job file that could not be read again is none. */
  private static Job readable(Path file, Map<String, Object> content) {
    Job[] job = new Job[1];
    usage(() -> job[0] = JobReader.beforeRecording(file, content));
    return job[0];
  }

  private static void usage(Runnable check) {
    try {
      check.run();
    } catch (Refusal e) {
      throw new WrongUsage(e.getMessage());
    }
  }

  private static void say(Terminal terminal, Path file, Job job) {
    terminal.say("Wrote " + file + ": " + job.title() + ".");
    List<String> missing =
        job.captures().stream()
            .filter(c -> !java.nio.file.Files.exists(c.file()))
            .map(
                c ->
                    c.file().getFileName()
                        + (c.across().isEmpty()
                            ? ""
                            : " (with the capacitor clipped across the jack)"))
            .toList();
    if (!missing.isEmpty()) {
      terminal.say("Still to be recorded: " + String.join(", ", missing) + ".");
    }
    terminal.say(
        "Then: trebleproof "
            + (job.setups().size() == 2 ? "compare " : "fit ")
            + file
            + " --page sheet.html");
  }

  /** The recordings as the job file names them: from its own folder. */
  private static List<String> names(Path file, List<Path> recordings) {
    Path folder = file.toAbsolutePath().normalize().getParent();
    List<String> names = new ArrayList<>();
    for (Path recording : recordings) {
      Path whole = recording.toAbsolutePath().normalize();
      boolean near = whole.getRoot().equals(folder.getRoot()) && whole.startsWith(folder);
      names.add((near ? folder.relativize(whole) : whole).toString().replace('\\', '/'));
    }
    return names;
  }

  /** What was answered, by options or by a person. */
  private static final class Answers {
    String kind = "";
    Map<Slot, String> now = Map.of();
    Map<Slot, String> then = Map.of();
    Optional<String> clip = Optional.empty();
    Optional<String> pickup = Optional.empty();
    final Map<List<String>, Object> more = new LinkedHashMap<>();
  }

  private Answers answers(ParseResult given, Terminal terminal) throws IOException {
    Answers answers = new Answers();
    answers.kind = given.matchedOptionValue("--fixture", "");
    answers.now = SketchOptions.wired(given, SketchOptions.NOW);
    answers.then = SketchOptions.wired(given, SketchOptions.THEN);
    answers.clip = SketchOptions.clip(given);
    answers.pickup = Optional.ofNullable(given.matchedOptionValue(PICKUP, null));
    answers.pickup.ifPresent(
        text -> SketchOptions.check(PICKUP, text, MarkedQuantity.PICKUP_RESISTANCE));
    Optional<BufferedReader> person = answers.kind.isEmpty() ? keys.get() : Optional.empty();
    if (person.isPresent()) {
      ask(new Questions(terminal, person.get()), given, answers);
    }
    JobOptions.checkKind(answers.kind, "say how it is recorded");
    boolean resistor =
        given.hasMatchedOption("--series-resistance")
            || answers.more.containsKey(List.of("fixture", "seriesResistance"));
    if (answers.kind.equals("series") && !resistor) {
      throw new WrongUsage(JobOptions.NO_RESISTOR);
    }
    SketchOptions.check(answers.now, answers.then);
    return answers;
  }

  private static void ask(Questions questions, ParseResult given, Answers answers)
      throws IOException {
    answers.kind =
        questions.choice(
            "How is it recorded: series (a resistor at the jack), exciter (a coil over the pickup)"
                + " or strike (pick strikes)?",
            List.of("exciter", "series", "strike"));
    if (answers.kind.equals("series") && !given.hasMatchedOption("--series-resistance")) {
      questions
          .marking("Series resistor, such as 100k 0.1%", MarkedQuantity.SERIES_RESISTOR, "100k")
          .ifPresent(text -> answers.more.put(List.of("fixture", "seriesResistance"), text));
    }
    if (!given.hasMatchedOption("--input-resistance")) {
      questions
          .marking(
              "Recorder's input resistance, such as 1M 1%", MarkedQuantity.INPUT_RESISTANCE, "")
          .ifPresent(text -> answers.more.put(List.of("fixture", "input", "resistance"), text));
    }
    if (answers.now.isEmpty()) {
      answers.now = questions.wired();
    }
    if (answers.then.isEmpty() && !answers.now.isEmpty()) {
      answers.then = questions.changes();
    }
    if (answers.clip.isEmpty() && answers.kind.equals("exciter")) {
      answers.clip =
          questions.marking(
              "Capacitor that is clipped across the jack for one more recording, such as 1n 1%",
              MarkedQuantity.CAPACITOR, "");
    }
    if (answers.pickup.isEmpty()) {
      answers.pickup =
          questions.marking(
              "Resistance of the coil by itself, such as 5.7k 1%",
              MarkedQuantity.PICKUP_RESISTANCE, "");
    }
    for (String key : List.of("customer", "instrument", "bench")) {
      if (!given.hasMatchedOption("--" + key)) {
        questions
            .line("For the sheet, " + key)
            .ifPresent(text -> answers.more.put(List.of(key), text));
      }
    }
  }
}
