package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.job.AdviseCommand;
import org.trebleproof.cli.job.CompareCommand;
import org.trebleproof.cli.job.FitCommand;
import org.trebleproof.cli.live.SweepCommand;
import picocli.CommandLine;

class CommandLineFaceTest {

  @TempDir Path folder;

  private static void assertOneSentence(Outcome outcome) {
    assertEquals(1, outcome.err().strip().lines().count(), outcome.err());
    assertTrue(outcome.err().startsWith("trebleproof: "), outcome.err());
    assertFalse(outcome.err().contains("Exception"), outcome.err());
    assertFalse(outcome.err().contains("\tat "), outcome.err());
    assertEquals("", outcome.out());
  }

  @ParameterizedTest
  @ValueSource(strings = {"fit", "compare", "advise", "sweep"})
  void helpShowsAnExampleThatParses(String command) {
    Outcome help = Outcome.of(command, "--help");
    assertEquals(ExitCode.DONE, help.exitCode());
    List<String> examples =
        help.out()
            .replaceAll("\\\\\\R *", "") // a line that goes on
            .lines()
            .filter(l -> l.startsWith("  trebleproof "))
            .toList();
    assertFalse(examples.isEmpty(), help.out());
    for (String example : examples) {
      List<String> words = words(example);
      assertEquals(command, words.get(1));
      String[] arguments = words.subList(2, words.size()).toArray(new String[0]);
      new CommandLine(subcommand(command).spec()).parseArgs(arguments);
    }
  }

  private static Subcommand subcommand(String name) {
    return switch (name) {
      case "fit" -> new FitCommand();
      case "compare" -> new CompareCommand();
      case "advise" -> new AdviseCommand();
      default -> new SweepCommand();
    };
  }

  /** Words of a shell command, double quotes taken off. */
  private static List<String> words(String line) {
    Matcher matcher = Pattern.compile("\"([^\"]*)\"|(\\S+)").matcher(line);
    List<String> words = new ArrayList<>();
    while (matcher.find()) {
      words.add(matcher.group(1) != null ? matcher.group(1) : matcher.group(2));
    }
    return words;
  }

  @Test
  void topHelpListsTheCommandsAndTheExitCodes() {
    Outcome help = Outcome.of("--help");
    assertEquals(ExitCode.DONE, help.exitCode());
    for (String command : List.of("fit", "compare", "advise", "sweep")) {
      assertTrue(help.out().contains("\n  " + command + " "), help.out());
    }
    assertTrue(help.out().contains("0 done, 1 the job failed or was refused, 2 wrong usage"));
    assertEquals(ExitCode.DONE, Outcome.of("--version").exitCode());
    assertTrue(Outcome.of("--version").out().startsWith("trebleproof "));
    assertEquals(ExitCode.USAGE, Outcome.of().exitCode());
  }

  static Stream<List<String>> wrongUsage() {
    return Stream.of(
        List.of("fitt"),
        List.of("fit"),
        List.of("compare"),
        List.of("sweep"),
        List.of("fit", "a.json", "b.json"),
        List.of("fit", "a.json", "--jsn", "x"),
        List.of("fit", "a.json", "--json"),
        List.of("fit", "a.json", "--csv", "-"),
        List.of("fit", "a.json", "--page", "/no/such/folder/page.html"),
        List.of("fit", "a.json", "--json", "r.txt", "--csv", "r.txt"),
        List.of("fit", "a.json", "--mains", "often"),
        List.of("fit", "coil.wav"),
        List.of("fit", "coil.wav", "--fixture", "series"),
        List.of("fit", "coil.wav", "--fixture", "sereis"),
        List.of("fit", "coil.wav", "--fixture", "series", "--series-resistance", "22 kF"),
        List.of("sweep", "s.wav", "--bits", "12"),
        List.of("sweep", "s.wav", "--level", "6"),
        List.of("sweep", "s.wav", "--from", "500", "--to", "100"),
        List.of("sweep", "/no/such/folder/s.wav"));
  }

  @ParameterizedTest
  @MethodSource("wrongUsage")
  void wrongUsageIsOneSentenceAndExitCodeTwo(List<String> arguments) {
    Outcome outcome = Outcome.of(arguments.toArray(new String[0]));
    assertEquals(ExitCode.USAGE, outcome.exitCode(), outcome.err());
    assertOneSentence(outcome);
  }

  @Test
  void unreadableInputIsOneSentenceExitCodeOneAndWritesNothing() throws IOException {
    Path job = Files.writeString(folder.resolve("job.json"), "{\"trebleproof\": 1, ");
    Path json = folder.resolve("result.json");
    for (String source : List.of(job.toString(), folder.resolve("missing.json").toString())) {
      Outcome outcome = Outcome.of("fit", source, "--json", json.toString());
      assertEquals(ExitCode.FAILED, outcome.exitCode(), outcome.err());
      assertOneSentence(outcome);
      assertFalse(Files.exists(json));
    }
  }

  @Test
  void neverReplacesAnInput() throws IOException {
    Path sample = Path.of("sample-captures/unlabelled-coil");
    Path job = Files.copy(sample.resolve("job.json"), folder.resolve("job.json"));
    Path sound = Files.copy(sample.resolve("coil.flac"), folder.resolve("coil.flac"));
    byte[] before = Files.readAllBytes(sound);
    for (Path input : List.of(job, sound)) {
      Outcome outcome = Outcome.of("fit", job.toString(), "--csv", input.toString());
      assertEquals(ExitCode.USAGE, outcome.exitCode(), outcome.err());
      assertTrue(outcome.err().contains("would replace"), outcome.err());
    }
    assertArrayEquals(before, Files.readAllBytes(sound));
  }

  @Test
  void writesEverythingItIsAskedFor() throws IOException {
    Path json = folder.resolve("result.json");
    Path csv = folder.resolve("with space.csv");
    Path page = folder.resolve("page.html");
    Outcome outcome =
        Outcome.of(
            "fit",
            "sample-captures/unlabelled-coil/job.json",
            "--json",
            json.toString(),
            "--csv",
            csv.toString(),
            "--page",
            page.toString());
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(new ObjectMapper().readTree(json.toFile()).get("estimates").size() > 3);
    assertTrue(Files.readString(csv).startsWith("curve,name,hz,"));
    assertTrue(Files.readString(page).contains("</html>"));
    assertTrue(outcome.out().lines().count() <= 24, outcome.out());
    try (Stream<Path> left = Files.list(folder)) {
      assertEquals(3, left.count(), "no half-written file is left");
    }
  }

  @Test
  void standardOutputIsPureJsonWhenAskedFor() throws IOException {
    Outcome outcome =
        Outcome.of(
            StandardCharsets.US_ASCII,
            "fit",
            "sample-captures/unlabelled-coil/coil.flac",
            "--fixture",
            "series",
            "--series-resistance",
            "100k 0.1%",
            "--json",
            "-");
    JsonNode result = new ObjectMapper().readTree(outcome.out());
    assertEquals(1, result.get("trebleproof").asInt());
    assertFalse(outcome.err().isBlank(), "the verdict goes to standard error");
    assertTrue(outcome.err().chars().allMatch(c -> c < 128 && c != '?'), outcome.err());
  }

  @Test
  void compareNeedsTwoSetups() {
    Outcome outcome = Outcome.of("compare", "sample-captures/unlabelled-coil/job.json");
    assertEquals(ExitCode.FAILED, outcome.exitCode());
    assertOneSentence(outcome);
  }

  @Test
  void sweepWritesASoundFileAndSaysHowToUseItSafely() throws IOException {
    Path file = folder.resolve("s.wav");
    Outcome outcome =
        Outcome.of("sweep", file.toString(), "--seconds", "1", "--repeats", "2", "--bits", "16");
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(outcome.out().contains("Headphones off"), outcome.out());
    // 3 gaps of 1 s and 2 sweeps of 1 s, 2 bytes a sample, and the 44 bytes of a plain WAV header
    assertEquals(44 + 2 * 48000 * 5, Files.size(file));
  }
}
