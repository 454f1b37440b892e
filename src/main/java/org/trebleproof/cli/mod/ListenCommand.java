package org.trebleproof.cli.mod;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.bench.live.Speaker;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.OutputFiles;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.file.WholeFolder;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.ListeningJson;
import org.trebleproof.report.page.ModPage;
import org.trebleproof.report.words.ListeningText;
import org.trebleproof.report.words.PredictionText;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** {@code listen}: hears a change before it is soldered, and finds out whether it is heard. */
public final class ListenCommand implements Subcommand {

  private final InputStream answers;
  private final Supplier<Optional<SoundSystem>> devices;

  public ListenCommand() {
    this(System.in, () -> Optional.of(new JavaSoundSystem()));
  }

  /**
   * @param answers of a blind test, a line each
   * @param devices where sounds are played; empty for files only
   */
  public ListenCommand(InputStream answers, Supplier<Optional<SoundSystem>> devices) {
    this.answers = answers;
    this.devices = devices;
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description("Lets you hear a change beforehand, in a blind test if you like.")
        .footer(
            "",
            "Example: hear a pot swap, then 16 blind trials",
            "  trebleproof listen sample-captures/pot-swap/job.json \\",
            "    --then volume=1M --folder hear --trials 16",
            "Example: from plain numbers, not matched in loudness",
            "  trebleproof listen --inductance 2.4 --resistance 5.7k \\",
            "    --capacitance 120p --loss 800k \\",
            "    --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M \\",
            "    --then volume=1M,tone=1M --folder hear --unmatched");
    ChainOptions.addTo(spec);
    spec.addOption(ChainOptions.changes("--then", "What would be different.").build());
    spec.addOption(
        OptionSpec.builder("--plan")
            .paramLabel("NAME")
            .type(String.class)
            .description("A setup or plan of the job instead of, or before, --then.")
            .build());
    spec.addOption(
        ChainOptions.file("--strike")
            .description("Recording of the guitar as it is now; without it, computed strings.")
            .build());
    spec.addOption(
        OptionSpec.builder("--folder")
            .paramLabel("FOLDER")
            .type(Path.class)
            .required(true)
            .description("New folder for the sounds.")
            .build());
    spec.addOption(
        OptionSpec.builder("--unmatched")
            .type(Boolean.class)
            .arity("0")
            .description("Keep the difference in loudness; else both are matched (ITU-R BS.1770).")
            .build());
    spec.addOption(
        OptionSpec.builder("--trials")
            .paramLabel("N")
            .type(Integer.class)
            .description("Blind test of this many trials, played and answered in the terminal.")
            .build());
    spec.addOption(
        OptionSpec.builder("--playback")
            .paramLabel("NAME")
            .type(String.class)
            .defaultValue("")
            .description("Playback device for the trials, or part of its name; see devices.")
            .build());
    spec.addOption(
        OptionSpec.builder("--files")
            .type(Boolean.class)
            .arity("0")
            .description("Write each trial to x.wav instead of playing it.")
            .build());
    spec.addOption(ChainOptions.page());
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) throws IOException {
    OutputFiles files = OutputFiles.from(given);
    Path folder = given.matchedOptionValue("--folder", null);
    try {
      WholeFolder.checkNew(folder);
    } catch (Refusal e) {
      throw new WrongUsage("--folder " + e.getMessage());
    }
    Integer trials = given.matchedOptionValue("--trials", null);
    if (trials != null && (trials < 5 || trials > 100)) {
      throw new WrongUsage("--trials must be 5 to 100, not " + trials);
    }
    ChainOptions.Planned planned = ChainOptions.planned(given, files);
    Prediction prediction =
        new Predictor(
                planned.chain(), planned.guitar().now(), planned.then(), Predictor.USUAL_DRAWS)
            .predict();
    if (prediction.changes().isEmpty()) {
      throw new WrongUsage(
          "Nothing is changed, so there is nothing to hear and nothing was written: name what would"
              + " be different.");
    }
    String change = PredictionText.headline(prediction);
    Path strike = given.matchedOptionValue("--strike", null);
    Optional<Recording> dry = Optional.ofNullable(strike).map(SoundFile::read);
    Rendering sounds =
        Rendering.of(
            planned.chain(),
            planned.guitar().now(),
            planned.then(),
            dry,
            !given.hasMatchedOption("--unmatched"));
    WholeFolder.make(
        folder,
        () -> {
          write(folder.resolve("before.wav"), sounds.before(), sounds.rate());
          write(folder.resolve("after.wav"), sounds.after(), sounds.rate());
        });
    files.keep(() -> ChainFile.text(planned.guitar().chain()));
    List<String> lines = ListeningText.lines(change, sounds, folder.toString(), terminal.style());
    if (trials == null) {
      writePage(files, planned.chain(), change, sounds, Optional.empty());
      files.writeJson(terminal, () -> ListeningJson.text(change, sounds, Optional.empty()));
      files.say(terminal, lines);
      return ExitCode.DONE;
    }
    lines.forEach(terminal::complain);
    BlindTest test = new BlindTest(trials, new SecureRandom().nextLong());
    Optional<Speaker> speaker =
        given.hasMatchedOption("--files")
            ? Optional.empty()
            : devices.get().flatMap(system -> speaker(given, system, sounds.rate()));
    BufferedReader reader =
        new BufferedReader(new InputStreamReader(answers, StandardCharsets.UTF_8));
    BlindTest.Score score =
        test.score(new BlindListening(sounds, folder, speaker, reader, terminal).run(test));
    writePage(files, planned.chain(), change, sounds, Optional.of(score));
    files.writeJson(terminal, () -> ListeningJson.text(change, sounds, Optional.of(score)));
    files.say(terminal, List.of(ListeningText.score(score)));
    return ExitCode.DONE;
  }

  private static void writePage(
      OutputFiles files,
      SignalChain chain,
      String change,
      Rendering sounds,
      Optional<BlindTest.Score> score) {
    files.writePage(
        () -> ModPage.of(chain.heading(), change, sounds, score, LocalDate.now().toString()));
  }

  private static Optional<Speaker> speaker(ParseResult given, SoundSystem system, int rate) {
    String wanted = given.commandSpec().findOption("--playback").getValue();
    Optional<Speaker> found = Speaker.find(system, wanted, rate);
    if (found.isEmpty() && !wanted.isEmpty()) {
      throw new WrongUsage(
          "no playback device named " + Refusal.quote(wanted) + " opens: see trebleproof devices");
    }
    return found;
  }

  private static void write(Path file, float[] samples, int rate) {
    WavWriter.write(file, new float[][] {samples}, rate, WavWriter.Encoding.PCM24);
  }
}
