package org.trebleproof.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.mod.ChainFile;
import org.trebleproof.bench.mod.CurveFile;
import org.trebleproof.bench.mod.FoundParts;
import org.trebleproof.bench.mod.PartsSearch;
import org.trebleproof.bench.mod.Target;
import org.trebleproof.report.FoundPartsText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code find-parts}: from a wanted sound to parts. */
final class FindPartsCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Finds pots, leads, capacitors and resistors that come near to a sound.")
        .footer(
            "",
            "Example: which parts make it resonate at 3.2 kHz with a peak of 4 dB?",
            "  trebleproof find-parts --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M \\",
            "    --resonance 3200 --peak 4",
            "Example: as it was before the swap, whatever that takes",
            "  trebleproof find-parts sample-captures/pot-swap/job.json \\",
            "    --setup after --as before");
    ChainOptions.addTo(spec);
    spec.addOption(number("--resonance", "HZ", "Where it should resonate."));
    spec.addOption(number("--peak", "DB", "How high over the level at 20 Hz."));
    spec.addOption(
        OptionSpec.builder("--as")
            .paramLabel("NAME")
            .type(String.class)
            .description("Like this setup or plan of the same guitar.")
            .build());
    spec.addOption(
        ChainOptions.file("--like")
            .description("Like another job, a kept guitar, or a curve (CSV of hz,dB).")
            .build());
    spec.addOption(
        OptionSpec.builder("--most-changes")
            .paramLabel("N")
            .type(Integer.class)
            .defaultValue("3")
            .description("How many parts may be changed. Usually 3.")
            .build());
    return spec;
  }

  private static OptionSpec number(String name, String label, String description) {
    return OptionSpec.builder(name)
        .paramLabel(label)
        .type(Double.class)
        .description(description)
        .build();
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    ChainOptions.checkOutputs(given, List.of("--json", "--save"));
    int most = given.commandSpec().findOption("--most-changes").getValue();
    if (most < 1 || most > 4) {
      throw new WrongUsage("--most-changes is 1 to 4, not " + most);
    }
    long targets =
        List.of("--resonance", "--as", "--like").stream().filter(given::hasMatchedOption).count();
    if (targets != 1
        || given.hasMatchedOption("--peak") && !given.hasMatchedOption("--resonance")) {
      throw new WrongUsage(
          "name one wanted sound: --resonance HZ with or without --peak DB, --as NAME or --like"
              + " FILE");
    }
    ChainOptions.Guitar guitar = ChainOptions.read(given);
    FoundParts found =
        new PartsSearch(guitar.chain(), guitar.now(), target(given, guitar), most).find();
    ChainOptions.write(given, "--save", () -> ChainFile.text(guitar.chain()));
    ChainOptions.finish(
        given,
        terminal,
        () -> FoundPartsText.json(found),
        FoundPartsText.lines(found, terminal.style()));
    return ExitCode.DONE;
  }

  private static Target target(ParseResult given, ChainOptions.Guitar guitar) {
    if (given.hasMatchedOption("--resonance")) {
      double hz = given.<Double>matchedOptionValue("--resonance", null);
      Double peak = given.matchedOptionValue("--peak", null);
      if (!(hz >= 300 && hz <= 8000) || peak != null && !(peak > 0.05 && peak < 40)) {
        throw new WrongUsage(
            "--resonance lies between 300 and 8000 Hz, --peak between 0.05 and 40");
      }
      return new Target.Peak(hz, Optional.ofNullable(peak));
    }
    String as = given.matchedOptionValue("--as", null);
    if (as != null) {
      return PartsSearch.shapeOf(
          "\"" + as + "\"", guitar.chain(), guitar.chain().layout(Optional.of(as)));
    }
    Path like = given.matchedOptionValue("--like", null);
    if (like.toString().toLowerCase(Locale.ROOT).endsWith(".csv")) {
      return CurveFile.read(like);
    }
    ChainOptions.Guitar other = ChainOptions.readFile(like);
    return PartsSearch.shapeOf(other.chain().title(), other.chain(), other.now());
  }
}
