package org.trebleproof.report;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.FitResult.Row;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Extras;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.live.IntervalGoal;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.page.HtmlPage;
import org.trebleproof.report.words.AdviceText;
import org.trebleproof.report.words.Headline;
import org.trebleproof.report.words.KeyQuantities;
import org.trebleproof.report.words.RowGroups;
import org.trebleproof.report.words.TextStyle;
import org.trebleproof.report.words.VerdictText;

/** A job with two pickups, and with names that hold dots, quotes and spaces. */
public class TwoPickupsTest {

  private static final String BRIDGE = "bridge";
  private static final String OTHER = "No. 3 coil";
  private static final String POT = "a.value";

  private final FitResult result = result();

  /** Two pickups, each in a setup of its own, with one pot between them. */
  public static FitResult result() {
    return result(OTHER, POT);
  }

  /** The same, one pickup and the pot called otherwise. */
  public static FitResult result(String second, String called) {
    Map<String, Part> parts = new LinkedHashMap<>();
    parts.put(BRIDGE, new Part(BRIDGE, Part.Kind.PICKUP, Optional.empty()));
    parts.put(second, new Part(second, Part.Kind.PICKUP, Optional.empty()));
    Part pot = new Part(called, Part.Kind.POT, Optional.of(new Marking(250e3, 0.2, true)));
    parts.put(called, pot);
    Map<String, Setup> setups = new LinkedHashMap<>();
    setups.put("before", setup("before", BRIDGE, called));
    setups.put("after", setup("after", second, called));
    FitResult swap = ExampleResults.potSwap();
    Job job =
        new Job(
            "Two pickups",
            Path.of("two/job.json"),
            swap.job().fixture(),
            OptionalDouble.empty(),
            parts,
            setups,
            List.of(
                new CaptureEntry("before", Path.of("two/before.wav"), "before", List.of()),
                new CaptureEntry("after", Path.of("two/after.wav"), "after", List.of())),
            List.of());
    Subject bridge = job.coil(BRIDGE);
    Subject other = job.coil(second);
    Subject before = Subject.setup("before");
    RowKey capacitance = RowKey.of(other, Quantity.CAPACITANCE);
    return FitResult.of(
            job,
            new Verdict(
                List.of(
                    Finding.of(FindingCode.MARKING_DOUBTFUL, "Something is held back.", "", "look")
                        .about(List.of(capacitance)))))
        .withModel(swap.model())
        .withRows(
            new Rows(
                List.of(
                    row(RowKey.of(bridge, Quantity.INDUCTANCE), 4.1),
                    row(RowKey.of(bridge, Quantity.RESISTANCE), 8200),
                    row(RowKey.of(bridge, Quantity.CAPACITANCE), 120e-12),
                    row(RowKey.of(other, Quantity.INDUCTANCE), 2.3),
                    row(RowKey.of(other, Quantity.RESISTANCE), 5600),
                    new Row(capacitance, Optional.empty()),
                    row(RowKey.of(before, Quantity.RESONANCE), 3600),
                    row(RowKey.of(Subject.setup("after"), Quantity.RESONANCE), 4200),
                    row(pot.row(), 251e3))))
        .withAdvice(
            List.of(
                new FitResult.Advice(
                    FitResult.Advice.About.PARTS, "Measure it.", pot.row(), 0.1, 0.01)));
  }

  private static Setup setup(String name, String pickup, String pot) {
    return new Setup(
        name,
        pickup,
        Optional.of(new Setup.PotUse(pot, 1, 0.5)),
        Optional.empty(),
        Optional.empty(),
        false,
        Optional.empty(),
        Optional.empty(),
        Extras.NONE);
  }

  private static Row row(RowKey key, double value) {
    return new Row(key, Estimate.logNormal(value, 0.01, key.quantity().unit(), Known.MEASURED));
  }

  @Test
  void everyCoilIsInTheSentence() {
    assertEquals(
        "Bridge measures 4.10 ±0.08 H, 8.20k ±0.16k and 120 ±2 pF; No. 3 coil measures 2.30 ±0.05 H"
            + " and 5.60k ±0.11k; before resonates at 3600 ±71 Hz; after resonates at 4200 ±83 Hz.",
        Headline.ofFit(result));
  }

  @Test
  void everyCoilIsInTheTerminal() {
    String text = String.join("\n", VerdictText.ofFit(result, TextStyle.PLAIN));
    for (String line :
        List.of(
            "                             bridge                            No. 3 coil",
            "  coil: inductance           4.10 ±0.08 H measured             2.30 ±0.05 H measured",
            "  coil: resistance           8.20k ±0.16k measured             5.60k ±0.11k measured",
            "  coil: winding capacitance  120 ±2 pF measured                withdrawn",
            "  a.value                    251k ±5k measured")) {
      assertTrue(text.contains("\n" + line + "\n"), text);
    }
    assertTrue(text.contains("Measure it (a.value: ±10 % now, ±1 % then)."), text);
  }

  @Test
  void everyCoilIsOnThePage() {
    String page = HtmlPage.of(result, "0", "2026-01-31");
    for (String words :
        List.of(
            "<th scope=\"row\">bridge: inductance</th>",
            "<th scope=\"row\">No. 3 coil: inductance</th>",
            "Coil of bridge</th>",
            "Coil of No. 3 coil</th>",
            "<th scope=\"row\">a.value</th>",
            "Withdrawn: No. 3 coil: winding capacitance")) {
      assertTrue(page.contains(words), words);
    }
    assertFalse(page.contains("coil.capacitance"), page);
  }

  @Test
  void everyCoilIsAmongWhatTheWindowShows() {
    assertEquals(
        List.of(
            "bridge: inductance",
            "bridge: resistance",
            "bridge: winding capacitance",
            "No. 3 coil: inductance",
            "No. 3 coil: resistance",
            "No. 3 coil: winding capacitance"),
        KeyQuantities.ofCoils(result).stream().map(RowKey::words).toList());
    assertEquals(
        List.of("Coil of bridge", "Coil of No. 3 coil", "Before", "After", "Parts"),
        List.copyOf(RowGroups.of(result.rows()).keySet()));
  }

  @Test
  void theResultFileNamesThem() throws Exception {
    JsonNode json = new ObjectMapper().readTree(ResultJson.of(result));
    assertEquals("bridge.inductance", json.at("/estimates/0/key").asText());
    assertEquals("No. 3 coil.capacitance", json.at("/estimates/5/key").asText());
    assertEquals("a.value.value", json.at("/estimates/8/key").asText());
    assertEquals("No. 3 coil.capacitance", json.at("/findings/0/keys/0").asText());
    assertEquals("a.value.value", json.at("/advice/0/key").asText());
  }

  @Test
  void aGoalMayNameOneOrBoth() {
    assertEquals(0.0196, reached("bridge.inductance 1%"), 1e-4);
    assertEquals(0.0196, reached("inductance 1%"), 1e-4);
    assertEquals(0.0196, reached("a.value.value 1%"), 1e-4);
    assertTrue(IntervalGoal.parse("capacitance 1%").reached(result).isEmpty());
  }

  private double reached(String goal) {
    return IntervalGoal.parse(goal).reached(result).orElseThrow();
  }

  @Test
  void adviceEndsItsSentenceOnce() {
    assertEquals(
        "Measure it (a.value: ±10 % now, ±1 % then).", AdviceText.of(result.advice().get(0)));
  }

  /** A name is a name, whatever it holds: dots, quotes, spaces, what a page or a file escapes. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '`',
      value = {
        "No. 3 coil|a.value",
        "neck \"hot\"|250k \"audio\" pot",
        "a.inductance|b.resistance",
        "<b>&amp;|it's 5 % off",
        "change|before"
      })
  void anyNameIsItselfInEveryFace(String coil, String pot) throws Exception {
    FitResult odd = result(coil, pot);
    assertEquals(
        "Bridge measures 4.10 ±0.08 H, 8.20k ±0.16k and 120 ±2 pF; "
            + coil
            + " measures 2.30 ±0.05 H and 5.60k ±0.11k; before resonates at 3600 ±71 Hz; after"
            + " resonates at 4200 ±83 Hz.",
        Headline.ofFit(odd));
    String text = String.join("\n", VerdictText.ofFit(odd, TextStyle.PLAIN));
    assertTrue(text.contains("bridge                            " + coil + "\n"), text);
    assertTrue(text.contains("\n  " + pot + " "), text);
    assertEquals(
        "Measure it (" + pot + ": ±10 % now, ±1 % then).", AdviceText.of(odd.advice().get(0)));
    String page = HtmlPage.of(odd, "0", "2026-01-31");
    for (String words :
        List.of(
            "<th scope=\"row\">" + escaped(coil) + ": inductance</th>",
            "Coil of " + escaped(coil) + "</th>",
            "<th scope=\"row\">" + escaped(pot) + "</th>",
            "Withdrawn: " + escaped(coil) + ": winding capacitance")) {
      assertTrue(page.contains(words), words + " in " + page);
    }
    JsonNode json = new ObjectMapper().readTree(ResultJson.of(odd));
    assertEquals(coil + ".capacitance", json.at("/findings/0/keys/0").asText());
    assertEquals(pot + ".value", json.at("/advice/0/key").asText());
    assertEquals(0.0196, IntervalGoal.parse(pot + ".value 1%").reached(odd).orElseThrow(), 1e-4);
  }

  /** As HTML 5 asks of text: section 13.3, escaping a string. */
  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
