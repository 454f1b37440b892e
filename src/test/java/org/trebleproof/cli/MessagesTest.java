package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.trebleproof.cli.command.ExitCode;

/** What a slip at the command line is answered with: one sentence that says how to go on. */
class MessagesTest {
  private static final String SAMPLES = "sample-captures/";
  private static final String JOB = SAMPLES + "pot-swap/job.json";
  private static final String STRIKES = SAMPLES + "strikes-pot-swap/";
  private static final String COIL = SAMPLES + "unlabelled-coil/coil.flac";

  @TempDir Path folder;

  private static String[] guitar(String command, String... more) {
    List<String> all = new ArrayList<>(List.of(command));
    all.addAll(List.of("--inductance", "2.4", "--resistance", "5.7k"));
    all.addAll(List.of("--capacitance", "120p", "--loss", "800k"));
    all.addAll(List.of(more));
    return all.toArray(new String[0]);
  }

  private static String[] words(String... words) {
    return words;
  }

  static Stream<Arguments> slips() {
    return Stream.of(
        Arguments.of(
            words("fit", JOB, "--series-resistance", "100"),
            "--series-resistance belongs to a series fixture, but job.json says exciter"),
        Arguments.of(
            words("fit", JOB, "--dc-resistance", "befor=5.7k 1%"),
            "no setup \"befor\": job.json has before, after"),
        Arguments.of(
            words("fit", COIL, "--fixture", "exciter", "--dc-resistance", "bar=6.18k 1%"),
            "no setup \"bar\""),
        Arguments.of(guitar("explain", "--at", "3.5x"), "a number of hertz, such as 3500"),
        Arguments.of(words("sweep", "s.wav", "--repeats", "4x"), "--repeats"),
        Arguments.of(words("sweep", "s.wav", "--rate", "44.1"), "must be a whole number"),
        Arguments.of(
            guitar("explain", "--now", "volume=250k,cable=0,5n"),
            "write cable=0.5n, for in this list a comma separates"),
        Arguments.of(guitar("predict", "--then", "volumeRotation=0,5"), "write volumeRotation=0.5"),
        Arguments.of(
            words("compare", "--pages", "x.html", JOB),
            "there is no option --pages: did you mean --page?"),
        Arguments.of(words("compare", JOB, "-x"), "there is no option -x"),
        Arguments.of(words("compare", JOB, "b.json"), "\"b.json\" is one word too many"),
        Arguments.of(words("hum", JOB), "each by its state: trebleproof hum --hands-off off.wav"),
        Arguments.of(words("hum", "silence.wav"), "trebleproof hum --hands-off silence.wav"),
        Arguments.of(words("comparre", JOB), "no command comparre: did you mean compare?"),
        Arguments.of(words("job.json"), "to fit it: trebleproof fit job.json"),
        Arguments.of(
            words("identify", "--inductance", "2.618", "--resistance", "6.183k"),
            "add --capacitance, such as 120p"),
        Arguments.of(
            guitar("identify", "--also", "neck:inductance=2,resistance=5k"),
            "the capacitance of neck is missing: add capacitance=120p"),
        Arguments.of(words("explain", COIL), "add --fixture series or --fixture exciter"),
        Arguments.of(
            words("explain", COIL, "--fixture", "series", "--setup", "before"),
            "coil.flac is a recording: say by --now what was wired"),
        Arguments.of(
            words("identify", JOB, "--match", COIL),
            "coil.flac is a recording: keep what it tells first"),
        Arguments.of(
            words("fit", COIL, "--fixture", "series", "--clipped", COIL),
            "--clipped needs to know what was clipped on"),
        Arguments.of(words("identify", COIL), "add --fixture series or --fixture exciter"),
        Arguments.of(
            words("fit", STRIKES + "before.flac", "--fixture", "strike"),
            "one recording of pick strikes needs to know what is wired"),
        Arguments.of(
            words("fit", STRIKES + "before.flac"), "compare BEFORE.wav AFTER.wav --fixture strike"),
        Arguments.of(
            words("compare", STRIKES + "before.flac", STRIKES + "after.flac"),
            "add --fixture series, exciter or strike"),
        Arguments.of(
            words(
                "compare",
                STRIKES + "before.flac",
                STRIKES + "after.flac",
                "--fixture",
                "strike",
                "--coil-fixed"),
            "--coil-fixed is of no use for pick strikes"),
        Arguments.of(
            words(
                "compare",
                STRIKES + "before.flac",
                STRIKES + "after.flac",
                "--fixture",
                "strike",
                "--dc-resistance",
                "6k"),
            "--dc-resistance needs to know what is wired"),
        Arguments.of(
            words("fit", STRIKES + "job.json", "--pickup", STRIKES + "job.json"),
            "names the job itself"),
        Arguments.of(words("explain", JOB, "--setup", "wrong"), "no setup or plan \"wrong\""),
        Arguments.of(guitar("predict", "--plan", "wrong"), "no setup or plan \"wrong\""),
        Arguments.of(guitar("predict", "--then", "cabel=500p"), "did you mean cable?"),
        Arguments.of(words("sweep", "x.mp3"), "ends in .wav"));
  }

  @ParameterizedTest
  @MethodSource("slips")
  void aSlipIsWrongUsageAndSaysWhatToWrite(String[] arguments, String words) {
    Outcome outcome = Outcome.of(arguments);
    assertEquals(ExitCode.USAGE, outcome.exitCode(), outcome.err());
    assertTrue(outcome.err().contains(words), outcome.err());
    assertEquals(1, outcome.err().strip().lines().count(), outcome.err());
    assertEquals("", outcome.out());
  }

  /** The unit's prefix, the unit itself and a decimal comma, where a number is wanted. */
  @Test
  void numbersAreWrittenAsTheTradeWritesThem() {
    Outcome plain = Outcome.of(guitar("explain", "--at", "3500"));
    assertEquals(ExitCode.DONE, plain.exitCode(), plain.err());
    for (String same : List.of("3.5k", "3,5k", "3k5", "3.5 kHz")) {
      assertEquals(plain.out(), Outcome.of(guitar("explain", "--at", same)).out(), same);
    }
    Path sound = folder.resolve("s.wav");
    Outcome sweep =
        Outcome.of(
            "sweep", sound.toString(), "--seconds", "0,5", "--rate", "44.1k", "--level", "-20 dB");
    assertEquals(ExitCode.DONE, sweep.exitCode(), sweep.err());
    Outcome cold = Outcome.of(guitar("identify", "--temperature", "26,5 °C"));
    assertEquals(ExitCode.DONE, cold.exitCode(), cold.err());
  }

  @Test
  void aSetupIsNotTakenForAPart() {
    Outcome outcome =
        Outcome.of("predict", SAMPLES + "treble-complaint/job.json", "--then", "cable=short lead");
    assertEquals(ExitCode.USAGE, outcome.exitCode(), outcome.err());
    assertTrue(outcome.err().contains("--plan \"short lead\""), outcome.err());
    outcome =
        Outcome.of(
            "predict", SAMPLES + "treble-complaint/job.json", "--then", "cable=something else");
    assertTrue(outcome.err().contains("there is \"9 m lead\""), outcome.err());
  }

  @Test
  void aFolderIsNoRecordingAndAStrikeHasNoReference() throws IOException {
    String job = Files.readString(Path.of(STRIKES, "job.json")).replace("\"before.flac\"", "\".\"");
    Path file = Files.writeString(folder.resolve("job.json"), job);
    assertTrue(Outcome.of("fit", file.toString()).err().contains("which is a folder"));
    Files.writeString(
        file,
        job.replace(
            "\"kind\": \"strike\",", "\"kind\": \"strike\"," + " \"referenceChannel\": 1,"));
    assertTrue(
        Outcome.of("fit", file.toString()).err().contains("strike recording has no reference"),
        Outcome.of("fit", file.toString()).err());
  }

  @Test
  void aMissingSecondChannelIsNotAskedForWhereOneIsEnough() throws IOException {
    Path file = folder.resolve("job.json");
    for (String sound : List.of("before.flac", "after.flac")) {
      Files.copy(Path.of(STRIKES, sound), folder.resolve(sound));
    }
    String job = Files.readString(Path.of(STRIKES, "job.json"));
    Files.writeString(file, job.replaceFirst("\"deviceChannel\": 1", "\"deviceChannel\": 2"));
    Outcome strikes = Outcome.of("fit", file.toString());
    assertTrue(strikes.err().contains("leave the channel number out"), strikes.err());
  }

  /** One setup of strikes is fitted, not refused; its parts are what is missing. */
  @Test
  void explainSaysWhyStrikesOfOneSetupAreNotEnough() throws IOException {
    Files.copy(Path.of(STRIKES, "before.flac"), folder.resolve("before.flac"));
    JsonNode job = new ObjectMapper().readTree(Path.of(STRIKES, "job.json").toFile());
    ((ArrayNode) job.get("captures")).remove(1);
    ((ObjectNode) job.get("setups")).remove("after");
    Path file = Files.writeString(folder.resolve("job.json"), job.toString());
    Outcome outcome = Outcome.of("explain", file.toString());
    assertEquals(ExitCode.FAILED, outcome.exitCode(), outcome.err());
    assertTrue(outcome.err().contains("do not tell the values of the parts"), outcome.err());
    assertFalse(outcome.err().contains("refused"), outcome.err());
  }

  /**
   * A forgotten prefix makes a number that no such part has; the file and the option agree on it.
   */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "volume=500 | a pot of 500 ohm | 250k would be usual",
        "cable=500 | a cable capacitance of 500 farad | 480p would be usual",
        "cable=50n | a cable capacitance of 0.00000005 farad | 480p would be usual",
        "cable=10p | a cable capacitance of 0.00000000001 farad | 480p would be usual",
        "toneCapacitor=22u | a tone capacitor of 0.000022 farad | 22n would be usual"
      })
  void aForgottenPrefixIsRefusedEverywhere(String change, String what, String usual)
      throws IOException {
    Outcome then = Outcome.of(guitar("predict", "--then", change));
    assertEquals(ExitCode.USAGE, then.exitCode(), then.err());
    assertTrue(then.err().contains(what) && then.err().contains(usual), then.err());
    Outcome now = Outcome.of(guitar("explain", "--now", change));
    assertEquals(ExitCode.USAGE, now.exitCode(), now.err());
    assertTrue(now.err().contains(what) && now.err().contains(usual), now.err());

    String value = change.substring(change.indexOf('=') + 1);
    String part =
        change.startsWith("volume")
            ? "new volume"
            : change.startsWith("cable") ? "lead" : "tone cap";
    JsonNode job = new ObjectMapper().readTree(Path.of(JOB).toFile());
    ((ObjectNode) job.get("parts").get(part))
        .put(part.equals("lead") ? "capacitance" : "value", value);
    for (JsonNode capture : job.get("captures")) {
      Files.writeString(folder.resolve(capture.get("file").asText()), "not read");
    }
    Path file = Files.writeString(folder.resolve("job.json"), job.toString());
    Outcome fit = Outcome.of("fit", file.toString());
    assertEquals(ExitCode.FAILED, fit.exitCode());
    assertTrue(fit.err().contains(what) && fit.err().contains(usual), fit.err());
  }

  /** One whole sentence a command, on its own line; examples can be copied line by line. */
  @Test
  void helpIsWholeSentencesAndExamplesCanBeCopied() {
    String top = Outcome.of("--help").out();
    String commands = top.substring(top.indexOf("Commands:"), top.indexOf("Example:"));
    List<String> lines = commands.lines().skip(1).filter(l -> !l.isBlank()).toList();
    assertEquals(18, lines.size(), commands);
    for (String line : lines) {
      assertTrue(line.matches("  [a-z-]+ +[A-Z].*\\."), line);
      String command = line.strip().split(" ")[0];
      String help = Outcome.of(command, "--help").out();
      assertTrue(help.lines().allMatch(l -> l.length() <= 80), help);
      String examples = help.substring(help.indexOf("Example:"));
      boolean goesOn = false;
      for (String l : examples.lines().toList()) {
        boolean part = l.startsWith("  ");
        assertFalse(goesOn && !l.startsWith("    "), "cut off: " + l);
        assertFalse(!goesOn && part && !l.startsWith("  trebleproof "), "not copied: " + l);
        goesOn = l.endsWith("\\");
      }
    }
  }

  @Test
  void listenNamesTheChangeAndWritesNothingWhereThereIsNone() {
    Path sounds = folder.resolve("hear");
    String[] now =
        guitar("listen", "--now", "volume=250k,cable=500p", "--folder", sounds.toString());
    List<String> same = new ArrayList<>(List.of(now));
    same.addAll(List.of("--then", "volume=250k"));
    Outcome nothing = Outcome.of(same.toArray(new String[0]));
    assertEquals(ExitCode.USAGE, nothing.exitCode(), nothing.err());
    assertTrue(nothing.err().contains("Nothing is changed"), nothing.err());
    assertFalse(Files.exists(sounds));
    same.set(same.size() - 1, "volume=1M");
    Outcome changed = Outcome.of(same.toArray(new String[0]));
    assertEquals(ExitCode.DONE, changed.exitCode(), changed.err());
    assertTrue(changed.out().startsWith("Volume pot 250k to 1M: "), changed.out());
    assertTrue(changed.out().contains("LU (ITU-R BS.1770), and both files are matched."));
  }

  @Test
  void aRecordingThatIsTakenInKeepsItsEnding() throws IOException {
    Path job = Files.copy(Path.of(JOB), folder.resolve("job.json"));
    Outcome outcome =
        Outcome.of(
            "record",
            job.toString(),
            "before 2",
            "--setup",
            "before",
            "--use",
            SAMPLES + "pot-swap/before.flac");
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(Files.exists(folder.resolve("before-2.flac")), outcome.out());
    assertTrue(Files.readString(job).contains("before-2.flac"));
    assertFalse(Files.exists(folder.resolve("before-2.wav")));
  }

  /** Two recordings and nothing else: the difference of the sample, its level in doubt. */
  @Test
  void twoRecordingsOfStrikesAreCompared() {
    Outcome outcome =
        Outcome.of(
            "compare",
            STRIKES + "before.flac",
            STRIKES + "after.flac",
            "--fixture",
            "strike",
            "--input-resistance",
            "1M 1%",
            "--input-capacitance",
            "80p 10%");
    assertEquals(ExitCode.DONE, outcome.exitCode(), outcome.err());
    assertTrue(outcome.out().contains("before.flac and after.flac"), outcome.out());
    assertTrue(outcome.out().contains("No part is named that differs"), outcome.out());
    assertTrue(outcome.out().contains("striking equally hard"), outcome.out());
  }

  /** What is known to a factor only accuses nobody of shorted turns. */
  @Test
  void aResistanceThatNobodyReadTellsNoShortedTurns() {
    String[] coil = {"identify", "--inductance", "1.22 20%", "--capacitance", "118p 50%"};
    Outcome read = Outcome.of(with(coil, "--resistance", "7.2k 1%"));
    assertTrue(read.out().contains("shorted turns are suspected"), read.out());
    assertTrue(read.out().contains("of what that family has at this resistance"), read.out());
    Outcome open = Outcome.of(with(coil, "--resistance", "7.2k 60%"));
    assertEquals(ExitCode.DONE, open.exitCode(), open.err());
    assertFalse(open.out().contains("are suspected"), open.out());
    assertTrue(open.out().contains("read it with an ohmmeter"), open.out());
  }

  private static String[] with(String[] first, String... more) {
    return java.util.stream.Stream.of(first, more)
        .flatMap(java.util.Arrays::stream)
        .toArray(String[]::new);
  }

  private static final String[] RECORDED = {
    "--fixture",
    "series",
    "--series-resistance",
    "100k 0.1%",
    "--input-resistance",
    "1M 1%",
    "--input-capacitance",
    "92p 3%",
    "--channel-ratio",
    "1.0044 0.05%",
    "--channel-delay",
    "0 0.02us"
  };

  /** The recording alone says what its job says; kept, it knows how warm the coil was. */
  @Test
  void aRecordingIsIdentifiedWithoutAJob() throws IOException {
    Path kept = folder.resolve("kept.json");
    String[] warm = with(RECORDED, "--temperature", "26", "--save", kept.toString());
    Outcome recorded = Outcome.of(with(new String[] {"identify", COIL}, warm));
    assertEquals(ExitCode.DONE, recorded.exitCode(), recorded.err());
    assertTrue(recorded.out().contains("single coil"), recorded.out());
    assertTrue(recorded.out().contains("was read at 26 °C"), recorded.out());
    Outcome again = Outcome.of("identify", kept.toString());
    assertTrue(again.out().contains("was read at 26 °C"), again.out());
    Outcome twice = Outcome.of("identify", kept.toString(), "--temperature", "20");
    assertEquals(ExitCode.USAGE, twice.exitCode());
    assertTrue(twice.err().contains("leave the option out"), twice.err());
    Outcome itself = Outcome.of("identify", kept.toString(), "--match", kept.toString());
    assertEquals(ExitCode.FAILED, itself.exitCode());
    assertTrue(itself.err().contains("makes no set with itself"), itself.err());
    Path other = folder.resolve("other.json");
    Outcome typed =
        Outcome.of(guitar("identify", "--temperature", "20", "--save", other.toString()));
    assertEquals(ExitCode.DONE, typed.exitCode(), typed.err());
    Outcome set = Outcome.of("identify", kept.toString(), "--match", other.toString());
    assertEquals(ExitCode.DONE, set.exitCode(), set.err());
    assertTrue(set.out().contains("\"other.json\" has"), set.out());
  }
}
