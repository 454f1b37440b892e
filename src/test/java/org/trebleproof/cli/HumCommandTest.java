package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.report.words.TextStyle;

class HumCommandTest {

  private static final String FOIL = "sample-captures/hum-foil/";

  @TempDir Path folder;

  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();

  private int run(String... arguments) {
    Terminal terminal =
        new Terminal(
            new PrintStream(out, true, StandardCharsets.UTF_8),
            new PrintStream(err, true, StandardCharsets.UTF_8),
            StandardCharsets.UTF_8,
            TextStyle.PLAIN);
    return new CommandLineFace(terminal).run(arguments);
  }

  @Test
  void withoutARecordingItIsWrongUsage() {
    assertEquals(2, run("hum"));
    assertEquals(1, err.toString(StandardCharsets.UTF_8).strip().lines().count());
    assertTrue(err.toString(StandardCharsets.UTF_8).contains("--hands-off"));
  }

  @Test
  void channelsCountFromOne() {
    assertEquals(2, run("hum", "--hands-off", FOIL + "hands-off.flac", "--channel", "0"));
  }

  @Test
  void aBrokenFileIsOneSentenceAndLeavesNothingBehind() throws IOException {
    Path broken = Files.writeString(folder.resolve("broken.flac"), "fLaC and then nothing");
    Path page = folder.resolve("page.html");
    assertEquals(1, run("hum", "--hands-off", broken.toString(), "--page", page.toString()));
    String words = err.toString(StandardCharsets.UTF_8);
    assertEquals(1, words.strip().lines().count(), words);
    assertTrue(words.contains("broken.flac"), words);
    assertFalse(Files.exists(page));
  }

  /** The generator states that the foil took 21 dB away, hands off. */
  @Test
  void theFoilSampleGivesItsDifference() throws IOException {
    Path json = folder.resolve("foil.json");
    int code =
        run(
            "hum",
            "--hands-off",
            FOIL + "hands-off.flac",
            "--after-hands-off",
            FOIL + "after-hands-off.flac",
            "--json",
            json.toString(),
            "--csv",
            folder.resolve("foil.csv").toString());
    assertEquals(0, code, err.toString(StandardCharsets.UTF_8));
    String words = out.toString(StandardCharsets.UTF_8);
    assertTrue(words.contains("-21.0 ±0.1 dB"), words);
    assertTrue(words.contains("nothing about electrical safety"), words);
    assertTrue(Files.readString(json).contains("\"difference\""));
    assertTrue(
        Files.readString(folder.resolve("foil.csv")).startsWith("state,harmonic,hz,level_dB"));
  }

  @Test
  void helpShowsAnExampleAndTheCaution() {
    assertEquals(0, run("hum", "--help"));
    String words = out.toString(StandardCharsets.UTF_8);
    assertTrue(words.contains("Example") && words.contains("protective earth"), words);
  }
}
