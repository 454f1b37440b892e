package org.trebleproof.cli.mod;

import java.io.IOException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.search.CurveFile;
import org.trebleproof.bench.mod.search.FoundParts;
import org.trebleproof.bench.mod.search.PartsSearch;
import org.trebleproof.bench.mod.search.Target;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.report.file.FoundPartsJson;
import org.trebleproof.report.page.ModPage;
import org.trebleproof.report.words.FoundPartsText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code find-parts}: from a wanted sound to parts. */
public final class FindPartsCommand implements Subcommand {

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Finds parts that come near to a wanted sound.",
            "Pots, leads, capacitors, resistors and wirings are tried.")
        .footer(
            "",
            "Example: which parts make it resonate at 3.2 kHz with a peak of 4 dB?",
            "  trebleproof find-parts --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M \\",
            "    --resonance 3200 --peak 4",
            "Example: as it was before the swap, whatever that takes",
            "  trebleproof find-parts sample-captures/pot-swap/job.json \\",
            "    --setup after --as before",
            "Example: a new pickup that should sound like the old one",
            "  trebleproof find-parts --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --also new:inductance=3.1,resistance=7k,capacitance=130p,loss=900k \\",
            "    --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M \\",
            "    --new-pickup new");
    ChainOptions.addTo(spec);
    spec.addOption(
        TradeNumber.HZ.option("--resonance").description("Where it should resonate.").build());
    spec.addOption(
        TradeNumber.DB
            .option("--peak")
            .description("Height of its peak over the level at 20 Hz.")
            .build());
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
        OptionSpec.builder("--new-pickup")
            .paramLabel("NAME")
            .type(String.class)
            .description("As it sounds now, but with this pickup in place of the one that is on.")
            .build());
    spec.addOption(
        OptionSpec.builder("--most-changes")
            .paramLabel("N")
            .type(Integer.class)
            .defaultValue("3")
            .description("How many parts may be changed. Usually 3.")
            .build());
    spec.addOption(ChainOptions.page());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    int most = given.commandSpec().findOption("--most-changes").getValue();
    if (most < 1 || most > 4) {
      throw new WrongUsage("--most-changes must be 1 to 4, not " + most);
    }
    long targets =
        List.of("--resonance", "--as", "--like", "--new-pickup").stream()
            .filter(given::hasMatchedOption)
            .count();
    if (targets != 1
        || given.hasMatchedOption("--peak") && !given.hasMatchedOption("--resonance")) {
      throw new WrongUsage(
          "say which sound is wanted: --resonance HZ with or without --peak DB, --as NAME, --like FILE"
              + " or --new-pickup NAME");
    }
    ChainOptions.Guitar guitar = ChainOptions.read(given, files);
    String fresh = given.matchedOptionValue("--new-pickup", null);
    SignalChain chain =
        fresh == null
            ? guitar.chain()
            : ChainOptions.changed(guitar.chain(), fresh, guitar.now(), Map.of("pickups", fresh));
    Layout from = fresh == null ? guitar.now() : chain.layout(Optional.of(fresh));
    FoundParts found = new PartsSearch(chain, from, target(given, guitar, files), most).find();
    files.keep(() -> ChainFile.text(guitar.chain()));
    files.writePage(() -> ModPage.of(found, LocalDate.now().toString()));
    files.writeJson(terminal, () -> FoundPartsJson.text(found));
    files.say(terminal, FoundPartsText.lines(found, terminal.style()));
    return ExitCode.DONE;
  }

  private static Target target(ParseResult given, ChainOptions.Guitar guitar, OutputFiles files) {
    if (given.hasMatchedOption("--resonance")) {
      double hz = given.<Double>matchedOptionValue("--resonance", null);
      Double peak = given.matchedOptionValue("--peak", null);
      if (!(hz >= 300 && hz <= 8000) || peak != null && !(peak > 0.05 && peak < 40)) {
        throw new WrongUsage(
            "--resonance must lie between 300 and 8000 Hz, --peak between 0.05 and 40");
      }
      return new Target.Peak(hz, Optional.ofNullable(peak));
    }
    if (given.hasMatchedOption("--new-pickup")) {
      return PartsSearch.shapeOf("the sound as it is now", guitar.chain(), guitar.now());
    }
    String as = given.matchedOptionValue("--as", null);
    if (as != null) {
      return PartsSearch.shapeOf(
          "\"" + as + "\"", guitar.chain(), ChainOptions.layout(guitar.chain(), Optional.of(as)));
    }
    Path like = given.matchedOptionValue("--like", null);
    if (like.toString().toLowerCase(Locale.ROOT).endsWith(".csv")) {
      return CurveFile.read(like);
    }
    ChainOptions.Guitar other = ChainOptions.readFile(like, files);
    return PartsSearch.shapeOf(other.chain().title(), other.chain(), other.now());
  }
}
