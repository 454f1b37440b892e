package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.cli.command.OutputFiles;
import picocli.CommandLine;
import picocli.CommandLine.Model.ArgSpec;
import picocli.CommandLine.Model.CommandSpec;

/**
 * Every command, every option that writes, every file that it reads, in other spellings and through
 * links: all refused, and nothing on the disk is changed. The spellings are drawn with a seed
 * ({@code -Dfuzz.seed}); {@code -Dfuzz.cases} above a thousand tries all of them.
 */
class OutputsAndInputsTest {

  private static final long SEED = Long.getLong("fuzz.seed", 20261130L);
  private static final boolean ALL = Integer.getInteger("fuzz.cases", 1000) > 1000;
  private static final int DRAWN = 2;

  private static final String COIL =
      "--inductance 2.4 --resistance 5.7k --capacitance 120p --loss 800k"
          + " --now volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";

  @TempDir static Path folder;

  /**
   * A command line that works, and what it reads.
   *
   * @param words of it, {@code @} standing for the folder
   * @param reads names in the folder
   */
  record Line(String words, String... reads) {
    String command() {
      String[] all = words.split(" ");
      return all[0].equals("shelf") ? all[0] + " " + all[1] : all[0];
    }

    @Override
    public String toString() {
      return words;
    }
  }

  static Stream<Line> lines() {
    String[] job = {"job.json", "before.flac", "before-1n.flac", "after.flac", "cal.json"};
    String[] strikes = {"s/job.json", "s/before.flac", "s/after.flac"};
    return Stream.of(
        new Line("fit @/job.json", job),
        new Line("compare @/job.json", job),
        new Line("fit @/one.json", "one.json", "after.flac", "played.flac", "looped.flac"),
        new Line("advise @/job.json", job),
        new Line(
            "fit @/before.flac --fixture series --series-resistance 100k --calibration @/cal.json",
            "before.flac",
            "cal.json"),
        new Line(
            "compare @/s/before.flac @/s/after.flac --fixture strike --calibration @/cal.json",
            "s/before.flac",
            "s/after.flac",
            "cal.json"),
        new Line(
            "compare @/before.flac @/after.flac --fixture exciter --clipped @/before-1n.flac"
                + " --clip 1n --now volume=250k --then volume=500k",
            "before.flac",
            "before-1n.flac",
            "after.flac"),
        new Line("compare @/s/job.json --pickup @/guitar.json", with(strikes, "guitar.json")),
        new Line("compare @/s/job.json --pickup @/job.json", with(strikes, job)),
        new Line("advise @/s/job.json --pickup @/guitar.json", with(strikes, "guitar.json")),
        new Line("fit @/s/job.json --pickup @/guitar.json", with(strikes, "guitar.json")),
        new Line("predict @/job.json --then volume=1M", job),
        new Line("explain @/job.json", job),
        new Line("identify @/job.json", job),
        new Line("find-parts @/job.json --resonance 3200", job),
        new Line("listen @/job.json --then volume=1M --folder @/new", job),
        new Line("demonstrate @/job.json --then volume=1M", job),
        new Line(
            "demonstrate @/guitar.json --then volume=1M --strike @/s/before.flac",
            "guitar.json",
            "s/before.flac"),
        new Line("predict @/guitar.json --then volume=1M", "guitar.json"),
        new Line("explain @/guitar.json", "guitar.json"),
        new Line("identify @/guitar.json", "guitar.json"),
        new Line("find-parts @/guitar.json --like @/job.json", with(job, "guitar.json")),
        new Line("find-parts " + COIL + " --like @/guitar.json", "guitar.json"),
        new Line("find-parts " + COIL + " --like @/curve.csv", "curve.csv"),
        new Line(
            "listen @/guitar.json --then volume=1M --strike @/s/before.flac --folder @/new",
            "guitar.json",
            "s/before.flac"),
        new Line(
            "hum --hands-off @/before.flac --on-strings @/after.flac --strike @/s/before.flac"
                + " --after-hands-off @/s/after.flac",
            "before.flac",
            "after.flac",
            "s/before.flac",
            "s/after.flac"),
        new Line("shelf list --shelf @/shelf.db", "shelf.db"),
        new Line("shelf sheet --shelf @/shelf.db", "shelf.db"),
        new Line("shelf pairs --shelf @/shelf.db", "shelf.db"),
        new Line("shelf like grey --shelf @/shelf.db", "shelf.db"),
        new Line("shelf judge --shelf @/shelf.db", "shelf.db"),
        new Line("shelf drift --recipe hot --shelf @/shelf.db", "shelf.db"),
        new Line("shelf benches a b --shelf @/shelf.db", "shelf.db"),
        new Line("measure @/job.json new --setup before", with(job, "new.wav")));
  }

  private static String[] with(String[] some, String... more) {
    return Stream.concat(Arrays.stream(some), Arrays.stream(more)).toArray(String[]::new);
  }

  @BeforeAll
  static void copySamples() throws IOException {
    copy("pot-swap", folder);
    copy("strikes-pot-swap", Files.createDirectory(folder.resolve("s")));
    Files.writeString(
        folder.resolve("cal.json"),
        """
        {"trebleproof": 1, "kind": "calibration", "date": "2026-11-01", "device": "box",
         "sampleRate": 48000, "channels": {"ratio": "1 1%"}}
        """);
    Path job = folder.resolve("job.json");
    String text = Files.readString(job);
    Files.writeString(
        job, text.replaceFirst("\"kind\"", "\"calibration\": \"cal.json\", \"kind\""));
    Files.copy(folder.resolve("before.flac"), folder.resolve("played.flac"));
    Files.copy(folder.resolve("before.flac"), folder.resolve("looped.flac"));
    Files.writeString(
        folder.resolve("one.json"),
        """
        {"trebleproof": 1, "title": "one channel",
         "fixture": {"kind": "series", "seriesResistance": "100k", "deviceChannel": 2,
           "sweep": "played.flac", "loopback": "looped.flac",
           "input": {"resistance": "1M", "capacitance": "80p"}},
         "parts": {"coil": {"kind": "pickup"}}, "setups": {"bare": {"pickup": "coil"}},
         "captures": [{"id": "bare", "file": "after.flac", "setup": "bare"}]}
        """);
    Files.writeString(folder.resolve("curve.csv"), "hz,dB\n100,0\n1000,1\n3000,4\n9000,-9\n");
    Outcome kept =
        Outcome.of(
            ("predict " + COIL + " --then volume=1M --draws 100 --save " + folder)
                .concat("/guitar.json")
                .split(" "));
    assertEquals(0, kept.exitCode(), kept.err());
    Outcome shelf =
        Outcome.of("shelf", "recipe", "hot", "--wire", "42", "--shelf", folder + "/shelf.db");
    assertEquals(0, shelf.exitCode(), shelf.err());
    Files.createDirectory(folder.resolve("out"));
    Files.createSymbolicLink(folder.resolve("same"), folder);
  }

  private static void copy(String sample, Path to) throws IOException {
    try (Stream<Path> files = Files.list(Path.of("sample-captures", sample))) {
      for (Path file : files.toList()) {
        Files.copy(file, to.resolve(file.getFileName().toString()));
      }
    }
  }

  /** Other names of a file, made on the disk where they are links. */
  private List<String> spellings(String name, int number) throws IOException {
    Path file = folder.resolve(name);
    Path link = folder.resolve("out/link" + number);
    Path hard = folder.resolve("out/hard" + number);
    Path chain = folder.resolve("out/chain" + number);
    Files.deleteIfExists(link);
    Files.deleteIfExists(chain);
    Files.deleteIfExists(hard);
    Files.createSymbolicLink(link, Path.of("..").resolve(name));
    Files.createSymbolicLink(chain, link);
    List<String> spellings =
        new ArrayList<>(
            List.of(
                file.toString(),
                folder + "/./" + name,
                folder + "/out/../" + name,
                folder + "/same/" + name,
                folder + "//" + name,
                Path.of("").toAbsolutePath().relativize(file.toAbsolutePath()).toString(),
                link.toString(),
                chain.toString()));
    if (Files.exists(file)) {
      Files.createLink(hard, file);
      spellings.add(hard.toString());
    }
    return spellings;
  }

  /** Sizes, times and sums of all there is. */
  private Map<String, String> state() throws IOException {
    Map<String, String> state = new TreeMap<>();
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.filter(f -> !f.startsWith(folder.resolve("out"))).toList()) {
        if (Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
          state.put(
              file.toString(), SoundFile.sha256(file) + " " + Files.getLastModifiedTime(file));
        } else {
          state.put(file.toString(), "");
        }
      }
    }
    return state;
  }

  @ParameterizedTest
  @MethodSource("lines")
  void anOutputNeverReplacesAnInput(Line line) throws IOException {
    Random random = new Random(SEED + line.words().hashCode());
    System.out.println("seed " + (SEED + line.words().hashCode()));
    Map<String, String> before = state();
    CommandSpec spec = CommandLineFace.spec(line.command());
    for (String option : OutputFiles.NAMES) {
      if (spec.findOption(option) == null) {
        continue;
      }
      for (String input : line.reads()) {
        List<String> spellings = spellings(input, 0);
        for (String spelling : spellings) {
          if (ALL || random.nextInt(spellings.size()) < DRAWN) {
            refuse(line, option, spelling);
          }
        }
      }
    }
    assertEquals(before, state());
  }

  /** What it does not read is not its own to replace either. */
  @ParameterizedTest
  @MethodSource("lines")
  void anOutputNeverReplacesWhatCannotBeMadeAgain(Line line) throws IOException {
    Map<String, String> before = state();
    Path other = folder.resolve("out/other");
    CommandSpec spec = CommandLineFace.spec(line.command());
    for (String option : OutputFiles.NAMES) {
      if (spec.findOption(option) != null) {
        for (String kind : List.of("before.flac", "job.json", "cal.json")) {
          Files.deleteIfExists(other);
          Files.copy(folder.resolve(kind), other);
          String sum = SoundFile.sha256(other);
          refuse(line, option, other.toString());
          assertEquals(sum, SoundFile.sha256(other));
        }
      }
    }
    assertEquals(before, state());
  }

  private void refuse(Line line, String option, String output) {
    List<String> words =
        new ArrayList<>(
            Arrays.stream(line.words().split(" "))
                .map(w -> w.replace("@", folder.toString()))
                .toList());
    if (line.command().equals("demonstrate") && !option.equals("--page")) {
      words.addAll(List.of("--page", folder.resolve("out/page.html").toString())); // it needs one
    }
    words.add(option);
    words.add(output);
    Outcome outcome = Outcome.of(words.toArray(new String[0]));
    String said = String.join(" ", words) + "\n" + outcome.out() + outcome.err();
    assertTrue(outcome.exitCode() == 1 || outcome.exitCode() == 2, said);
    assertEquals(1, outcome.err().strip().lines().count(), said);
    assertTrue(
        outcome.err().contains("would replace") || outcome.err().contains("is a link that"), said);
    assertFalse(outcome.err().contains("Exception"), said);
  }

  /** A command that gets a new option for a file must be tried here too. */
  @Test
  void everyOptionThatNamesAFileIsTried() {
    List<String> lines = lines().map(Line::words).toList();
    TreeSet<String> untried = new TreeSet<>();
    for (String command : CommandLineFace.names()) {
      CommandSpec spec = new CommandLine(CommandLineFace.spec(command)).getCommandSpec();
      if (OutputFiles.NAMES.stream().allMatch(name -> spec.findOption(name) == null)) {
        continue; // it writes no file that a person names
      }
      for (ArgSpec argument : spec.options()) {
        String name = ((CommandLine.Model.OptionSpec) argument).longestName();
        boolean tried =
            OutputFiles.NAMES.contains(name)
                || lines.stream().anyMatch(l -> l.contains(" " + name + " "))
                || name.startsWith("--after-")
                || HUM_STATES.contains(name);
        if (argument.type() == Path.class && !tried) {
          untried.add(command + " " + name);
        }
      }
      if (lines.stream().noneMatch(l -> l.startsWith(command + " "))) {
        untried.add(command);
      }
    }
    assertEquals(new TreeSet<String>(), untried);
  }

  /** The states of the guitar are one kind of option; two of them are tried. */
  private static final List<String> HUM_STATES =
      Arrays.stream(org.trebleproof.bench.hum.HumState.values())
          .map(state -> "--" + state.key())
          .toList();

  @Test
  void aSweepNeverReplacesATake() throws IOException {
    Path take = Files.copy(Path.of("sample-captures/pot-swap/after.flac"), folder.resolve("t.wav"));
    String sum = SoundFile.sha256(take);
    Outcome outcome = Outcome.of("sweep", take.toString());
    assertEquals(2, outcome.exitCode(), outcome.err());
    assertEquals(sum, SoundFile.sha256(take));
    Files.delete(take);
  }
}
