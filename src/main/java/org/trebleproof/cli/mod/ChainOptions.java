package org.trebleproof.cli.mod;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.job.FormerFit;
import org.trebleproof.cli.job.JobOptions;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** The guitar of a command: a job to be fitted, a guitar kept earlier, or numbers typed in. */
final class ChainOptions {
  private static final String PICKUP = "pickup";
  private static final List<String> COIL_KEYS =
      List.of("inductance", "resistance", "capacitance", "loss");

  private ChainOptions() {}

  static void addTo(CommandSpec spec) {
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("GUITAR")
            .index("0")
            .arity("0..1")
            .type(Path.class)
            .description(
                "Job file, a guitar kept with --save, or one recording; without it, type the"
                    + " numbers.")
            .build());
    spec.addOption(
        OptionSpec.builder("--setup")
            .paramLabel("NAME")
            .type(String.class)
            .description("Setup or plan the guitar is in now; without it the job's last setup.")
            .build());
    spec.addOption(
        changes("--now", "Wiring as it is, or what differs from the setup: volume=250k,cable=500p")
            .build());
    spec.addArgGroup(
        ArgGroupSpec.builder()
            .heading("%nWithout a file:%n")
            .exclusive(false)
            .multiplicity("0..1")
            .addArg(text("--inductance", "HENRY", "Of the pickup, such as \"2.4 5%%\"."))
            .addArg(text("--resistance", "OHM", "Of the pickup, such as 5.7k."))
            .addArg(text("--capacitance", "FARAD", "Of the winding, such as 120p."))
            .addArg(text("--loss", "OHM", "Core loss, as a resistance across: 800k."))
            .addArg(
                OptionSpec.builder("--also")
                    .paramLabel("NAME:KEY=VALUE,...")
                    .type(List.class)
                    .auxiliaryTypes(String.class)
                    .arity("1")
                    .description(
                        "A further pickup, such as neck:inductance=2.1,resistance=5.9k,"
                            + "capacitance=110p,loss=800k.")
                    .build())
            .build());
    spec.addOption(
        file("--json")
            .description("Write the result for another program; - to standard output.")
            .build());
    spec.addOption(file("--save").description("Keep the guitar for later.").build());
    JobOptions.addRecording(spec);
  }

  static OptionSpec page() {
    return file("--page").description("Write a page to read, print and keep (HTML).").build();
  }

  static OptionSpec.Builder file(String name) {
    return OptionSpec.builder(name).paramLabel("FILE").type(Path.class);
  }

  static OptionSpec.Builder changes(String name, String description) {
    return OptionSpec.builder(name)
        .paramLabel("KEY=VALUE,...")
        .type(List.class)
        .auxiliaryTypes(String.class)
        .arity("1")
        .description(description);
  }

  private static OptionSpec text(String name, String label, String description) {
    return OptionSpec.builder(name)
        .paramLabel(label)
        .type(String.class)
        .description(description)
        .build();
  }

  /**
   * A guitar and the wiring it has now.
   *
   * @param chain what is known
   * @param now its wiring
   */
  record Guitar(SignalChain chain, Layout now) {}

  /**
   * What {@code --then} or {@code --plan} would make of a guitar.
   *
   * @param guitar as it is now
   * @param chain the same with what is added
   * @param then its wiring then
   */
  record Planned(Guitar guitar, SignalChain chain, Layout then) {}

  static Planned planned(ParseResult given, OutputFiles files) {
    Map<String, String> changes = parsed(given, "--then");
    String plan = given.matchedOptionValue("--plan", null);
    if (changes.isEmpty() && plan == null) {
      throw new WrongUsage("say what would be different: --then volume=500k, or --plan NAME");
    }
    Guitar guitar = read(given, files);
    Layout from = guitar.now();
    if (plan != null) {
      from = layout(guitar.chain(), Optional.of(plan));
      String origin = guitar.chain().origins().get(plan);
      if (origin != null
          && !given.hasMatchedOption("--setup")
          && !given.hasMatchedOption("--now")) {
        SignalChain there = guitar.chain().at(origin);
        guitar = new Guitar(there, there.layout(Optional.empty()));
      }
    }
    SignalChain chain = changed(guitar.chain(), SignalChain.ADDED, from, changes);
    return new Planned(guitar, chain, chain.layouts().get(SignalChain.ADDED));
  }

  static Guitar read(ParseResult given, OutputFiles files) {
    Path source = given.matchedPositionalValue(0, null);
    if (source == null || !JobOptions.isSound(source)) {
      return read(given, source, files);
    }
    refuseTyped(given);
    if (given.hasMatchedOption("--setup")) {
      throw new WrongUsage(
          "--setup is for a job, and "
              + source.getFileName()
              + " is a recording: say by --now what was wired when it was made.");
    }
    SignalChain chain = FormerFit.recorded(JobOptions.recording(given, source), files);
    return new Guitar(chain, chain.layout(Optional.empty()));
  }

  /** Another guitar, as its file says. */
  static Guitar readFile(Path source, OutputFiles files) {
    SignalChain chain = FormerFit.chain(source, files);
    return new Guitar(chain, chain.layout(Optional.empty()));
  }

  private static Guitar read(ParseResult given, Path source, OutputFiles files) {
    Map<String, String> stated = parsed(given, "--now");
    if (source == null) {
      SignalChain typed = typed(given, stated);
      return new Guitar(typed, typed.layout(Optional.empty()));
    }
    refuseTyped(given);
    SignalChain known = FormerFit.chain(source, files);
    String setup = given.matchedOptionValue("--setup", null);
    SignalChain chain = setup == null ? known : usage(() -> known.at(setup));
    Layout now = chain.layout(Optional.empty());
    if (stated.isEmpty()) {
      return new Guitar(chain, now);
    }
    SignalChain changed = changed(chain, SignalChain.STATED, now, stated).at(SignalChain.STATED);
    return new Guitar(changed, changed.layout(Optional.empty()));
  }

  private static void refuseTyped(ParseResult given) {
    for (String option :
        List.of("--inductance", "--resistance", "--capacitance", "--loss", "--also")) {
      if (given.hasMatchedOption(option)) {
        throw new WrongUsage(option + " is for a guitar without a file; leave one of the two out");
      }
    }
  }

  /** The wiring that an option names. */
  static Layout layout(SignalChain chain, Optional<String> name) {
    return usage(() -> chain.layout(name));
  }

  /** Changes given by an option; wrong ones are wrong usage. */
  static Map<String, String> parsed(ParseResult given, String option) {
    List<String> texts = given.matchedOptionValue(option, List.of());
    return usage(() -> PlanReader.parsed(texts));
  }

  static SignalChain changed(
      SignalChain chain, String name, Layout from, Map<String, String> changes) {
    changes.forEach(
        (key, value) -> {
          if (chain.layouts().containsKey(value) && !chain.slots().containsKey(value)) {
            throw new WrongUsage(
                key
                    + ": "
                    + Refusal.quote(value)
                    + " is a whole setup or plan and no part: take it with --plan "
                    + Refusal.quote(value)
                    + ", or name the part that is in it.");
          }
        });
    return usage(() -> chain.with(name, from, changes));
  }

  private static <T> T usage(Supplier<T> supplier) {
    try {
      return supplier.get();
    } catch (Refusal e) {
      throw new WrongUsage(e.getMessage());
    }
  }

  private static SignalChain typed(ParseResult given, Map<String, String> stated) {
    Map<String, String> first = new LinkedHashMap<>();
    for (String key : COIL_KEYS) {
      String value = given.matchedOptionValue("--" + key, null);
      if (value != null) {
        first.put(key, value);
      }
    }
    if (first.isEmpty()) {
      throw new WrongUsage(
          "name a job or a kept guitar, or type its numbers, such as --inductance 2.4"
              + " --resistance 5.7k --capacitance 120p --loss 800k");
    }
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put(PICKUP, coil("", first));
    List<String> also = given.matchedOptionValue("--also", List.of());
    for (String text : also) {
      int colon = text.indexOf(':');
      if (colon < 1) {
        throw new WrongUsage("--also wants NAME:KEY=VALUE,..., not " + Refusal.quote(text));
      }
      String name = text.substring(0, colon).strip();
      Map<String, String> values =
          usage(() -> PlanReader.parsed(List.of(text.substring(colon + 1))));
      if (!COIL_KEYS.containsAll(values.keySet()) || coils.containsKey(name)) {
        throw new WrongUsage(
            "--also names a further pickup and its " + String.join(", ", COIL_KEYS));
      }
      coils.put(name, coil(name, values));
    }
    return usage(() -> TypedCoil.guitar(coils, stated));
  }

  private static TypedCoil coil(String name, Map<String, String> values) {
    return new TypedCoil(
        marking(name, values, "inductance", MarkedQuantity.COIL_INDUCTANCE),
        marking(name, values, "resistance", MarkedQuantity.PICKUP_RESISTANCE),
        marking(name, values, "capacitance", MarkedQuantity.WINDING_CAPACITANCE),
        values.containsKey("loss")
            ? Optional.of(marking(name, values, "loss", MarkedQuantity.LOSS_RESISTANCE))
            : Optional.empty());
  }

  private static Marking marking(
      String name, Map<String, String> values, String key, MarkedQuantity quantity) {
    String example =
        switch (key) {
          case "inductance" -> "2.4";
          case "resistance" -> "5.7k";
          default -> "120p";
        };
    if (!values.containsKey(key)) {
      throw new WrongUsage(
          name.isEmpty()
              ? "the pickup's " + key + " is missing: add --" + key + ", such as " + example
              : "the "
                  + key
                  + " of "
                  + name
                  + " is missing: add "
                  + key
                  + "="
                  + example
                  + " or what it is to --also "
                  + name
                  + ":...");
    }
    try {
      return TradeNotation.marking(values.get(key), quantity);
    } catch (TradeNotationException e) {
      throw new WrongUsage(
          (name.isEmpty() ? "--" + key : "--also " + name + ": " + key) + ": " + e.getMessage());
    }
  }
}
