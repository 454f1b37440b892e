package org.trebleproof.report.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.trebleproof.quantity.RowKeys.key;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Unit;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.ExampleResults;

class ResultFilesTest {

  private final FitResult swap = ExampleResults.potSwap();

  @Test
  void aWithdrawnRowKeepsItsPlaceWithNulls() throws Exception {
    JsonNode rows = json(ExampleResults.refused()).get("estimates");
    assertEquals(swap.rows().list().size(), rows.size());
    for (JsonNode row : rows) {
      for (String key : List.of("value", "low", "high", "known")) {
        assertTrue(row.get(key).isNull(), row.toString());
      }
    }
  }

  @Test
  void anOpenBoundIsNull() throws Exception {
    Estimate floor = new Estimate(3e6, 1e6, Double.POSITIVE_INFINITY, Unit.OHM, Known.MEASURED);
    FitResult.Row row = new FitResult.Row(key("new volume.value"), floor);
    FitResult result = FitResult.of(swap.job(), Verdict.CLEAR).withRows(ExampleResults.rows(row));
    JsonNode written = json(result).get("estimates").get(0);
    assertEquals(1e6, written.get("low").asDouble());
    assertTrue(written.get("high").isNull());
    assertTrue(json(result).get("model").isNull());
    assertFalse(json(result).has("difference"));
  }

  @Test
  void numbersKeepEveryDigit() throws Exception {
    JsonNode rows = json(swap).get("estimates");
    for (int i = 0; i < rows.size(); i++) {
      Estimate estimate = swap.rows().list().get(i).estimate().orElseThrow();
      assertEquals(estimate.value(), rows.get(i).get("value").doubleValue());
      assertEquals(estimate.low(), rows.get(i).get("low").doubleValue());
      assertEquals(estimate.unit().code(), rows.get(i).get("unit").asText());
    }
  }

  @Test
  void theTableHasOneFieldPerColumnAndOneRowPerPoint() {
    List<String> lines = CurvesCsv.of(swap).lines().toList();
    int columns = lines.get(0).split(",", -1).length;
    lines.forEach(line -> assertEquals(columns, line.split(",", -1).length, line));
    int captures = swap.captures().stream().mapToInt(c -> c.measured().size()).sum();
    int setups = swap.setups().stream().mapToInt(s -> s.hz().length).sum();
    int difference = swap.difference().orElseThrow().hz().length;
    assertEquals(1 + captures + setups + difference, lines.size());
    assertFalse(String.join("", lines).contains("NaN"));
  }

  @Test
  void theTableQuotesNamesWithCommas() {
    FitResult.SetupCurve odd =
        new FitResult.SetupCurve(
            "neck, \"hot\"",
            new double[] {100},
            new double[] {1},
            new double[] {0.9},
            new double[] {1.1},
            new double[] {-3});
    FitResult result = FitResult.of(swap.job(), Verdict.CLEAR).withSetupCurves(List.of(odd));
    assertEquals(
        "setup,\"neck, \"\"hot\"\"\",100.0000,1.00000,0.90000,1.10000,-3.00000,,,,",
        CurvesCsv.of(result).lines().skip(1).findFirst().orElseThrow());
  }

  @Test
  void pointsThatTheFitLeftOutStandAloneInTheTable() {
    FitResult.CaptureFit whole = swap.captures().get(0);
    int n = whole.measured().size();
    Response model = whole.modelled().orElseThrow();
    Response rest =
        new Response(
            Arrays.copyOfRange(model.hz(), 1, n),
            Arrays.copyOfRange(model.re(), 1, n),
            Arrays.copyOfRange(model.im(), 1, n),
            new double[n - 1]);
    FitResult.CaptureFit part =
        new FitResult.CaptureFit(
            whole.id(),
            whole.setup(),
            whole.quantity(),
            whole.measured(),
            Optional.of(rest),
            Arrays.copyOfRange(whole.residualRe(), 1, n),
            Arrays.copyOfRange(whole.residualIm(), 1, n),
            whole.harmonics(),
            whole.sha256(),
            whole.sampleRate(),
            whole.bits(),
            whole.sweeps());
    List<String> lines = table(part);
    List<String> complete = table(whole);
    assertTrue(lines.get(1).endsWith(",,,,"), lines.get(1));
    assertEquals(complete.subList(2, n + 1), lines.subList(2, n + 1));
  }

  private List<String> table(FitResult.CaptureFit capture) {
    return CurvesCsv.of(FitResult.of(swap.job(), Verdict.CLEAR).withCaptures(List.of(capture)))
        .lines()
        .toList();
  }

  private static JsonNode json(FitResult result) throws Exception {
    return new ObjectMapper().readTree(ResultJson.of(result));
  }
}
