package org.trebleproof.report.words;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.ResultChange;

class AgainTextTest {

  private static Map<CoilValue, Estimate> henry(double value) {
    return Map.of(
        CoilValue.INDUCTANCE,
        new Estimate(value, value - 0.01, value + 0.01, Unit.HENRY, Known.MEASURED));
  }

  private static ShelvedCoil before(CoilState state, double value) {
    return new ShelvedCoil(
        "grey 6",
        "",
        List.of(),
        "",
        "m",
        new Circumstances("bench a", "", "2026-11-30", OptionalDouble.empty()),
        "1",
        state,
        "",
        henry(value),
        Optional.empty());
  }

  private static CoilAnswer now(String program, double value, String result) {
    return new CoilAnswer(
        program,
        CoilState.GOOD,
        "The coil measures 4 H.",
        henry(value),
        Optional.empty(),
        result,
        Optional.empty());
  }

  /** A result whose inductance is uncertain by so much from the noise and from the channels. */
  private static String result(String model, double noise, double channels, String finding) {
    double u = Math.hypot(noise, channels);
    return """
        {"trebleproof": 1, "model": {"name": "%s, departures"}, "findings": [%s],
         "uncertainty": [{"key": "pickup.inductance", "standardUncertainty": %s, "shares": [
           {"source": "noise", "share": %s}, {"source": "channels", "share": %s}]}]}
        """
        .formatted(model, finding, u, noise * noise / (u * u), channels * channels / (u * u));
  }

  private static String line(String then, String here) {
    return AgainText.line(
        before(CoilState.GOOD, 4), ResultChange.of(then, here), now("2", 4.1, here));
  }

  @Test
  void whatHasNotMovedIsAsBefore() {
    String same = result("solid core", 1, 1, "");
    assertEquals(
        "\"grey 6\" at bench a on 2026-11-30: as before",
        AgainText.line(before(CoilState.GOOD, 4), ResultChange.of(same, same), now("2", 4, same)));
    assertFalse(AgainText.changed(before(CoilState.GOOD, 4), now("2", 4, same)));
    assertTrue(AgainText.changed(before(CoilState.GOOD, 4), now("2", 4.1, same)));
  }

  @Test
  void anotherCoilModelIsNamed() {
    String line =
        line(result("solid core, loss", 1, 1, ""), result("split inductance, loss", 1, 1, ""));
    assertTrue(
        line.endsWith(
            "Why: another model of the coil fits better: split inductance in place of solid core;"
                + " worked out by version 2, not 1."),
        line);
    line = line(result("solid core", 1, 1, ""), result("solid core, loss", 1, 1, ""));
    assertTrue(line.contains("fits better: with loss;"), line);
  }

  @Test
  void onlyTheSourceThatChangedIsTheCause() {
    String louder = line(result("a", 1, 1, ""), result("a", 2, 1, ""));
    assertTrue(louder.contains("Why: there is taken to be more noise on the recording;"), louder);
    assertFalse(louder.contains("calibration"), louder);
    String bench = line(result("a", 1, 2, ""), result("a", 1, 1, ""));
    assertTrue(
        bench.contains("Why: the bench's calibration is trusted more (match of the channels);"),
        bench);
    assertFalse(bench.contains("noise"), bench);
  }

  @Test
  void aCheckThatIsNewIsQuoted() {
    String found = "{\"code\": \"x\", \"text\": \"The input of coil.wav clips.\"}";
    String line = line(result("a", 1, 1, ""), result("a", 1, 1, found));
    assertTrue(line.contains("Why: a check says now: The input of coil.wav clips;"), line);
    line = line(result("a", 1, 1, found), result("a", 1, 1, ""));
    assertTrue(line.contains("Why: no check says any more: The input of coil.wav clips;"), line);
  }

  @Test
  void whatIsNoResultTellsNoCause() {
    assertTrue(line("{}", "").endsWith("Why: worked out by version 2, not 1."));
  }

  @Test
  void whatOnlyWaitedIsNoChange() {
    String line =
        AgainText.line(
            before(CoilState.WAITING, 4), ResultChange.of("{}", "{}"), now("1", 4.1, "{}"));
    assertEquals(
        "\"grey 6\" at bench a on 2026-11-30: worked out, good. The coil measures 4 H.", line);
  }
}
