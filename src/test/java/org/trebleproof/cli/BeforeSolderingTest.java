package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.mod.ListenCommand;
import org.trebleproof.report.words.TextStyle;

/** The commands that need no recording, from outside. */
class BeforeSolderingTest {
  private static final List<String> GUITAR =
      List.of(
          "--inductance",
          "2.4",
          "--resistance",
          "5.7k",
          "--capacitance",
          "120p",
          "--loss",
          "800k",
          "--now",
          "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M");

  @TempDir Path folder;

  private static Outcome run(List<String> arguments) {
    return Outcome.of(arguments.toArray(new String[0]));
  }

  private static List<String> command(String name, String... more) {
    List<String> all = new ArrayList<>(List.of(name));
    all.addAll(GUITAR);
    all.addAll(Arrays.asList(more));
    return all;
  }

  /** The second example of every help text needs no recording: it must run as it stands. */
  @ParameterizedTest
  @ValueSource(strings = {"predict", "explain", "find-parts", "identify"})
  void theExampleInTheHelpRuns(String name) {
    Outcome help = run(List.of(name, "--help"));
    assertEquals(ExitCode.DONE, help.exitCode());
    assertTrue(help.out().lines().allMatch(l -> l.length() <= 80), help.out());
    String text = help.out().replace("\\\n", " ").replaceAll("\\s+", " ");
    Matcher example =
        Pattern.compile("trebleproof (" + name + " --inductance .*?)(?: Example:|$)").matcher(text);
    assertTrue(example.find(), help.out());
    List<String> words = new ArrayList<>();
    Matcher word = Pattern.compile("\"([^\"]*)\"|(\\S+)").matcher(example.group(1));
    while (word.find()) {
      words.add(word.group(1) != null ? word.group(1) : word.group(2));
    }
    Outcome outcome = run(words);
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(outcome.out().lines().allMatch(l -> l.length() <= 110), outcome.out());
    assertTrue(run(List.of("--help")).out().contains("\n  " + name + " "));
  }

  @Test
  void predictLeadsWithTheVerdictAndItsJsonAgrees() throws IOException {
    Path json = folder.resolve("p.json");
    Outcome outcome =
        run(command("predict", "--then", "volume=500k,tone=500k", "--json", json.toString()));
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(
        outcome
            .out()
            .lines()
            .skip(1)
            .findFirst()
            .orElseThrow()
            .startsWith("Volume pot 250k to 500k"));
    JsonNode result = new ObjectMapper().readTree(json.toFile());
    assertEquals("plainly audible", result.at("/audibility/verdict").asText());
    // ngspice 39 on the same guitar, its loss across the output: 3.56 dB more at 4 kHz.
    double most = 0;
    for (JsonNode dB : result.at("/change/dB")) {
      most = Math.max(most, dB.asDouble());
    }
    assertEquals(3.6, most, 0.15);
    assertTrue(
        result.at("/levels/0/change/low").asDouble()
            < result.at("/levels/0/change/high").asDouble());
    assertEquals(21, result.at("/audibility/thirdOctaves").size());
  }

  @Test
  void keptGuitarPredictsTheSame() throws IOException {
    Path kept = folder.resolve("guitar.json");
    Outcome first = run(command("predict", "--then", "volume=500k", "--save", kept.toString()));
    Outcome again = run(List.of("predict", kept.toString(), "--then", "volume=500k"));
    assertEquals(ExitCode.DONE, again.exitCode(), again.err());
    assertEquals(first.out(), again.out());
    assertTrue(Files.readString(kept).contains("\"kind\" : \"guitar\""));
    Outcome found = run(command("find-parts", "--like", kept.toString(), "--json", "-"));
    JsonNode result = new ObjectMapper().readTree(found.out());
    assertEquals(0, result.at("/options/0/distance").asDouble(), 0.01);
    assertFalse(found.err().isBlank(), "the verdict goes to standard error");
  }

  @Test
  void spiceNetlistHoldsThePredictedCircuit() throws IOException {
    Path deck = folder.resolve("then.cir");
    Outcome outcome =
        run(
            command(
                "predict",
                "--then",
                "bleedCapacitor=1n,volumeRotation=0.5",
                "--spice",
                deck.toString()));
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    String text = Files.readString(deck);
    assertTrue(text.startsWith("* ") && text.contains("wrdata answer.data"), text);
    assertEquals(1, text.lines().filter(l -> l.matches("C\\d+ \\d \\d 1\\.0E-9")).count(), text);
  }

  /**
   * From the state before a swap and the marking of the new pot: the state after, as ngspice made
   * the recordings, must lie in the predicted interval.
   */
  @ParameterizedTest
  @ValueSource(strings = {"pot-swap/500k", "swap-at-jack/1M"})
  void predictsWhatASampleJobThenMeasured(String job) throws IOException {
    String[] sample = job.split("/");
    Path source = Path.of("sample-captures", sample[0]);
    Outcome outcome =
        run(
            List.of(
                "predict",
                source.resolve("job.json").toString(),
                "--setup",
                "before",
                "--then",
                "volume=" + sample[1],
                "--json",
                "-"));
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    JsonNode result = new ObjectMapper().readTree(outcome.out());
    JsonNode truth =
        new ObjectMapper().readTree(source.resolve("truth.json").toFile()).get("estimates");
    assertIn(truth.get("after.resonance").asDouble(), result.at("/resonance/then"));
    assertIn(truth.get("after.resonancePeak").asDouble(), result.at("/peak/then"));
    assertTrue(
        result.at("/peak/then/high").asDouble() - result.at("/peak/then/low").asDouble() < 1);
  }

  private static void assertIn(double truth, JsonNode estimate) {
    assertTrue(
        truth >= estimate.get("low").asDouble() && truth <= estimate.get("high").asDouble(),
        truth + " not in " + estimate);
  }

  @Test
  void aRefusedJobPredictsNothing() throws IOException {
    Path job = Files.writeString(folder.resolve("job.json"), "{\"trebleproof\": 1, ");
    Outcome outcome = run(List.of("explain", job.toString()));
    assertEquals(ExitCode.FAILED, outcome.exitCode());
    assertEquals(1, outcome.err().strip().lines().count(), outcome.err());
    assertEquals("", outcome.out());
  }

  @ParameterizedTest
  @ValueSource(strings = {"predict", "explain", "find-parts", "identify", "listen", "demonstrate"})
  void pagesAreWellFormedAndLeadWithTheVerdict(String name) throws Exception {
    Path page = folder.resolve("page.html");
    List<String> arguments = command(name, "--page", page.toString());
    if (name.equals("predict") || name.equals("demonstrate")) {
      arguments.addAll(List.of("--then", "volume=500k"));
    } else if (name.equals("find-parts")) {
      arguments.addAll(List.of("--resonance", "3200", "--most-changes", "1"));
    } else if (name.equals("listen")) {
      arguments.addAll(List.of("--then", "volume=500k", "--folder", folder + "/hear"));
    }
    Outcome outcome = run(arguments);
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    String text = Files.readString(page);
    assertEquals(
        "html",
        javax.xml.parsers.DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(
                new java.io.ByteArrayInputStream(
                    text.replace("<!DOCTYPE html>", "").getBytes(StandardCharsets.UTF_8)))
            .getDocumentElement()
            .getTagName());
    assertTrue(text.indexOf("class=\"verdict\"") < text.indexOf("<svg"), "the verdict leads");
    assertEquals(
        name.equals("predict") || name.equals("find-parts"), text.contains("class=\"circuit\""));
  }

  @Test
  void demonstrateCarriesARecordingAndSaysWhatToDoWithThePage() throws IOException {
    Path strike = folder.resolve("riff.wav");
    float[] samples = new float[9600];
    samples[100] = 0.5f;
    org.trebleproof.audio.WavWriter.write(
        strike, new float[][] {samples}, 48000, org.trebleproof.audio.WavWriter.Encoding.PCM16);
    Path page = folder.resolve("demo.html");
    Outcome outcome =
        run(command("demonstrate", "--strike", strike.toString(), "--page", page.toString()));
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(outcome.out().contains("makes no sound by itself"), outcome.out());
    assertTrue(Files.readString(page).contains("\"recording\":{\"rate\":48000"));
    Path noSound = Files.writeString(folder.resolve("riff.txt"), "no sound");
    Outcome wrong =
        run(command("demonstrate", "--strike", noSound.toString(), "--page", page.toString()));
    assertEquals(ExitCode.FAILED, wrong.exitCode());
    assertEquals(1, wrong.err().strip().lines().count(), wrong.err());
  }

  @Test
  void explainAddsUp() throws IOException {
    Outcome outcome = run(command("explain", "--at", "6000", "--json", "-"));
    JsonNode result = new ObjectMapper().readTree(outcome.out());
    double sum = 0;
    for (JsonNode share : result.get("shares")) {
      sum += share.at("/loss/value").asDouble();
    }
    assertEquals(result.at("/loss/value").asDouble(), sum, 1e-9);
    assertTrue(result.get("verdict").asText().contains("Most comes back"), outcome.out());
  }

  static Stream<List<String>> wrong() {
    return Stream.of(
        List.of("predict"),
        command("listen", "--then", "volume=1M"),
        command("listen", "--then", "volume=1M", "--folder", "new", "--trials", "3"),
        command("predict"),
        command("predict", "--then", "vol=500k"),
        command("predict", "--then", "volume=500k", "--draws", "3"),
        command("predict", "--then", "volume"),
        List.of("predict", "--inductance", "2.4", "--then", "volume=500k"),
        List.of("predict", "job.json", "--inductance", "2.4", "--then", "volume=500k"),
        command("predict", "--then", "volume=500k", "--json", "a.json", "--spice", "a.json"),
        command("explain", "--from", "5000", "--to", "2000"),
        command("demonstrate", "--then", "volume=1M"),
        command("demonstrate", "--page", "no/such/folder/demo.html"),
        command("find-parts"),
        command("find-parts", "--resonance", "3200", "--as", "now"),
        command("find-parts", "--peak", "3"),
        command("identify", "--match", "nobody"),
        command("identify", "--temperature", "200"));
  }

  @ParameterizedTest
  @MethodSource("wrong")
  void wrongUsageIsOneSentenceAndExitCodeTwo(List<String> arguments) {
    Outcome outcome = run(arguments);
    assertEquals(ExitCode.USAGE, outcome.exitCode(), outcome.err());
    assertEquals(1, outcome.err().strip().lines().count(), outcome.err());
    assertFalse(outcome.err().contains("Exception"), outcome.err());
    assertEquals("", outcome.out());
  }

  @Test
  void listenWritesTwoSoundsAndScoresABlindTest() throws IOException {
    Path sounds = folder.resolve("hear");
    Outcome outcome = run(command("listen", "--then", "volume=1M", "--folder", sounds.toString()));
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(outcome.out().contains("Start quiet"), outcome.out());
    assertTrue(Files.size(sounds.resolve("before.wav")) > 100_000);
    assertEquals(Files.size(sounds.resolve("before.wav")), Files.size(sounds.resolve("after.wav")));
    assertEquals(
        ExitCode.USAGE,
        run(command("listen", "--then", "volume=1M", "--folder", sounds.toString())).exitCode());

    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    Terminal terminal =
        new Terminal(
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8),
            StandardCharsets.UTF_8,
            TextStyle.PLAIN);
    ListenCommand listen =
        new ListenCommand(
            new java.io.ByteArrayInputStream("b\nx\na\nb\nb\na\n".getBytes(StandardCharsets.UTF_8)),
            Optional::empty);
    List<String> arguments =
        command(
            "listen",
            "--then",
            "volume=1M",
            "--folder",
            folder.resolve("blind").toString(),
            "--trials",
            "5");
    int code =
        listen.run(
            new picocli.CommandLine(listen.spec())
                .parseArgs(arguments.subList(1, arguments.size()).toArray(new String[0])),
            terminal);
    assertEquals(ExitCode.DONE, code);
    assertTrue(out.toString(StandardCharsets.UTF_8).contains(" of 5 right"), out.toString());
    assertFalse(Files.exists(folder.resolve("blind").resolve("x.wav")));
  }

  @Test
  void aBlindTestIsPlayedWhereThereIsADevice() throws IOException {
    SimulatedSoundSystem system = new SimulatedSoundSystem();
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    Terminal terminal =
        new Terminal(
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8),
            StandardCharsets.UTF_8,
            TextStyle.PLAIN);
    ListenCommand listen =
        new ListenCommand(
            new java.io.ByteArrayInputStream(
                "x\n1\n2\n-\nb\na\nb\nb\na\n".getBytes(StandardCharsets.UTF_8)),
            () -> Optional.of(system));
    Path sounds = folder.resolve("played");
    List<String> arguments =
        command("listen", "--then", "volume=1M", "--folder", sounds.toString(), "--trials", "5");
    int code =
        listen.run(
            new picocli.CommandLine(listen.spec())
                .parseArgs(arguments.subList(1, arguments.size()).toArray(new String[0])),
            terminal);
    assertEquals(ExitCode.DONE, code);
    assertTrue(out.toString(StandardCharsets.UTF_8).contains(" of 5 right"), out.toString());
    assertTrue(err.toString(StandardCharsets.UTF_8).contains("20 dB down"), err.toString());
    assertFalse(Files.exists(sounds.resolve("x.wav")), "no file gives a trial away");
    // The files peak at -20 dB re full scale, and the first playback is 20 dB below that.
    assertTrue(system.loudest() <= 0.0101, "played at " + system.loudest());
    assertTrue(system.loudest() > 0.003, "played at " + system.loudest());
  }

  @Test
  void silenceIsRefusedKindly() {
    Outcome outcome = run(command("predict", "--then", "volumeRotation=0"));
    assertEquals(ExitCode.FAILED, outcome.exitCode());
    assertTrue(outcome.err().contains("silence"), outcome.err());
  }
}
