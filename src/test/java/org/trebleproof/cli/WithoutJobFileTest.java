package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.job.WriteJobCommand;
import org.trebleproof.report.words.TextStyle;
import picocli.CommandLine;

/** From recordings to numbers, and to a first job file, without writing JSON. */
class WithoutJobFileTest {

  private static final String SWAP = "sample-captures/pot-swap/";
  private static final String JACK = "sample-captures/swap-at-jack/";
  private static final String LEADS = "sample-captures/treble-complaint/";

  @TempDir Path folder;

  private JsonNode result(String... words) throws IOException {
    Path json = folder.resolve("result.json");
    List<String> all = new ArrayList<>(List.of(words));
    all.addAll(List.of("--json", json.toString()));
    Outcome outcome = Outcome.of(all.toArray(new String[0]));
    assertEquals(0, outcome.exitCode(), outcome.out() + outcome.err());
    return new ObjectMapper().readTree(json.toFile());
  }

  private static JsonNode row(JsonNode result, String key) {
    for (JsonNode row : result.get("estimates")) {
      if (row.get("key").asText().equals(key)) {
        return row;
      }
    }
    throw new AssertionError("no row " + key);
  }

  /** One recording of a whole guitar tells what takes its treble. */
  @Test
  void oneSweepOfAWiredGuitarIsExplained() throws IOException {
    JsonNode typed =
        result(
            "explain",
            LEADS + "long-lead.flac",
            "--fixture",
            "series",
            "--series-resistance",
            "100k 0.1%",
            "--now",
            "volume=500k,tone=500k,toneCapacitor=22n,cable=9 m");
    assertEquals("long-lead.flac", typed.get("title").asText());
    assertEquals("lead", typed.get("shares").get(0).get("name").asText());
  }

  /** The netlist's values (truth.json beside the recordings) lie within the intervals. */
  @Test
  void oneSweepAndOneWithAClipOfAWiredGuitarAreFitted() throws IOException {
    JsonNode typed =
        result(
            "fit",
            SWAP + "before.flac",
            "--fixture",
            "exciter",
            "--now",
            "volume=250k,tone=250k,toneCapacitor=22n,cable=4.5 m",
            "--clipped",
            SWAP + "before-1n.flac",
            "--clip",
            "1n 1%",
            "--input-resistance",
            "1M 1%",
            "--input-capacitance",
            "80p 3%");
    assertWithin(2.304, row(typed, "pickup.inductance"));
    assertWithin(6.589e-10, row(typed, "now.totalCapacitance"));
    assertWithin(238600, row(typed, "volume pot.value"));
  }

  private static void assertWithin(double truth, JsonNode row) {
    assertTrue(
        row.get("low").asDouble() <= truth && truth <= row.get("high").asDouble(),
        truth + " is not in " + row);
  }

  /** Everything said by options gives the numbers that the job file gives. */
  @Test
  void twoSweepsAtTheJack() throws IOException {
    JsonNode typed =
        result(
            "compare",
            JACK + "before.flac",
            JACK + "after.flac",
            "--fixture",
            "series",
            "--series-resistance",
            "100k 0.1%",
            "--channel-ratio",
            "0.9973 0.05%",
            "--channel-delay",
            "0 0.02us",
            "--input-resistance",
            "1M 1%",
            "--input-capacitance",
            "80p 3%",
            "--dc-resistance",
            "before=8.95k 1%",
            "--mains",
            "50",
            "--now",
            "volume=250k,tone=500k,toneCapacitor=47n,cable=360p 10%",
            "--then",
            "volume=1M");
    JsonNode filed = result("compare", JACK + "job.json");
    for (String key : List.of("change.loadConductance", "pickup.inductance", "after.resonance")) {
      for (String bound : List.of("value", "low", "high")) {
        double expected = row(filed, key).get(bound).asDouble();
        // The parts stand in another order, so sums round otherwise.
        assertEquals(
            expected, row(typed, key).get(bound).asDouble(), 1e-5 * Math.abs(expected), key);
      }
    }
    assertEquals("Volume pot 250k to 1M", typed.get("title").asText());
  }

  /** With less said, and the lead by its length, the truth still lies in the interval. */
  @Test
  void twoExciterSweepsAndOneWithAClip() throws IOException {
    JsonNode typed =
        result(
            "compare",
            SWAP + "before.flac",
            SWAP + "after.flac",
            "--clipped",
            SWAP + "before-1n.flac",
            "--clip",
            "1n 1%",
            "--fixture",
            "exciter",
            "--now",
            "volume=250k,tone=250k,toneCapacitor=22n,cable=4.5 m",
            "--then",
            "volume=500k");
    JsonNode truth = new ObjectMapper().readTree(Path.of(SWAP, "truth.json").toFile());
    double change = truth.get("estimates").get("change.loadConductance").asDouble();
    JsonNode row = row(typed, "change.loadConductance");
    assertTrue(row.get("low").asDouble() <= change && change <= row.get("high").asDouble());
    JsonNode filed = row(result("compare", SWAP + "job.json"), "change.loadConductance");
    assertEquals(
        filed.get("value").asDouble(),
        row.get("value").asDouble(),
        row.get("high").asDouble() - row.get("low").asDouble());
  }

  @Test
  void whatIsMissingIsNamed() {
    assertMissing("--fixture", "compare", SWAP + "before.flac", SWAP + "after.flac");
    assertMissing(
        "--now", "compare", SWAP + "before.flac", SWAP + "after.flac", "--fixture", "exciter");
    assertMissing(
        "toneCapacitor=",
        "compare",
        SWAP + "before.flac",
        SWAP + "after.flac",
        "--fixture",
        "exciter",
        "--now",
        "volume=250k,tone=250k",
        "--then",
        "volume=500k");
    assertMissing(
        "--clip ",
        "compare",
        SWAP + "before.flac",
        SWAP + "after.flac",
        "--fixture",
        "exciter",
        "--now",
        "volume=250k",
        "--then",
        "volume=500k",
        "--clipped",
        SWAP + "before-1n.flac");
    assertMissing("--now", "compare", SWAP + "job.json", "--now", "volume=250k");
    assertMissing("--mains", "fit", SWAP + "before.flac", "--fixture", "exciter", "--mains", "400");
  }

  private static void assertMissing(String named, String... words) {
    Outcome outcome = Outcome.of(words);
    assertEquals(2, outcome.exitCode(), outcome.err());
    assertEquals(1, outcome.err().strip().lines().count(), outcome.err());
    assertTrue(outcome.err().contains(named), outcome.err());
  }

  @Test
  void writesAJobFile() throws IOException {
    Path file = folder.resolve("swap.json");
    Outcome outcome =
        Outcome.of(
            "write-job",
            file.toString(),
            "--fixture",
            "exciter",
            "--now",
            "volume=250k,tone=250k,toneCapacitor=22n,cable=3 m",
            "--then",
            "volume=500k",
            "--clip",
            "1n 1%",
            "--customer",
            "A. Player");
    assertEquals(0, outcome.exitCode(), outcome.err());
    assertTrue(outcome.out().contains("before-clipped.wav"), outcome.out());
    JsonNode job = new ObjectMapper().readTree(file.toFile());
    assertEquals("A. Player", job.get("customer").asText());
    assertEquals("3 m", job.at("/parts/lead/length").asText());
    // With the recordings beside it, it is a job that can be fitted.
    Files.copy(Path.of(SWAP, "before.flac"), folder.resolve("before.wav"));
    Files.copy(Path.of(SWAP, "before-1n.flac"), folder.resolve("before-clipped.wav"));
    Files.copy(Path.of(SWAP, "after.flac"), folder.resolve("after.wav"));
    assertEquals(0, Outcome.of("compare", file.toString()).exitCode());
    // And it is nobody's to overwrite.
    Outcome again = Outcome.of("write-job", file.toString(), "--fixture", "exciter");
    assertFalse(again.exitCode() == 0);
    assertTrue(again.err().contains("would replace"), again.err());
  }

  @Test
  void namesRecordingsFromTheJobsFolder() throws IOException {
    Path file = folder.resolve("job.json");
    Path sound = Files.createDirectory(folder.resolve("takes")).resolve("a.wav");
    Outcome outcome =
        Outcome.of(
            "write-job",
            file.toString(),
            sound.toString(),
            "--fixture",
            "series",
            "--series-resistance",
            "100k 1%");
    assertEquals(0, outcome.exitCode(), outcome.err());
    JsonNode job = new ObjectMapper().readTree(file.toFile());
    assertEquals("takes/a.wav", job.at("/captures/0/file").asText());
    assertEquals("100k 1%", job.at("/fixture/seriesResistance").asText());
  }

  private String asked(Path file, String answers) throws IOException {
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    PrintStream to = new PrintStream(out, true, StandardCharsets.UTF_8);
    Terminal terminal = new Terminal(to, to, StandardCharsets.UTF_8, TextStyle.PLAIN);
    WriteJobCommand command =
        new WriteJobCommand(() -> Optional.of(new BufferedReader(new StringReader(answers))));
    int code = command.run(new CommandLine(command.spec()).parseArgs(file.toString()), terminal);
    assertEquals(0, code);
    return out.toString(StandardCharsets.UTF_8);
  }

  @Test
  void asksWhereAPersonSits() throws IOException {
    Path file = folder.resolve("asked.json");
    // kind, input, volume (a slip first), tone, capacitor, lead, change, clip, coil, customer ...
    String said =
        asked(
            file,
            "\n1M 1%\n250\n250k\n250k\n\n9 m\nvolume=500k\n1n 1%\n\nA. Player\nThe red one\n\n");
    JsonNode job = new ObjectMapper().readTree(file.toFile());
    assertEquals("exciter", job.at("/fixture/kind").asText());
    assertEquals("1M 1%", job.at("/fixture/input/resistance").asText());
    assertEquals("250k", job.at("/parts/old volume pot/value").asText());
    assertEquals("22n", job.at("/parts/tone capacitor/value").asText());
    assertEquals("9 m", job.at("/parts/lead/length").asText());
    assertEquals("The red one", job.get("instrument").asText());
    assertTrue(job.get("bench") == null, said);
    assertTrue(said.contains("would be a pot of 250 ohm"), said);
  }

  @Test
  void asksNobodyWhereNobodySits() {
    Outcome outcome = Outcome.of("write-job", folder.resolve("x.json").toString());
    assertEquals(2, outcome.exitCode());
    assertTrue(outcome.err().contains("--fixture"), outcome.err());
    assertFalse(Files.exists(folder.resolve("x.json")));
  }
}
