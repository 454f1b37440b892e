package org.trebleproof.report.words;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.trebleproof.quantity.RowKeys.key;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.FitResult.Row;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.ExampleResults;

class HeadlineTest {

  private final FitResult swap = ExampleResults.potSwap();

  @Test
  void saysWhatACableTookWhereNoConductanceChanged() {
    List<Row> rows = new ArrayList<>(swap.rows().list());
    rows.set(0, row("change.loadConductance", 0, 3e-9, Unit.SIEMENS));
    replace(rows, row("after.totalCapacitance", 380e-12, 2e-12, Unit.FARAD));
    assertEquals(
        "The other cable took the total capacitance from 680 ±5 pF to 380 ±2 pF; at 4 kHz that"
            + " gives back 2.05 ±0.07 dB; the coil is unchanged.",
        Headline.of(with(cableSwap(), rows, swap.findings())));
  }

  @Test
  void saysWhenNothingChanged() {
    List<Row> rows = new ArrayList<>(swap.rows().list());
    rows.set(0, row("change.loadConductance", 1e-9, 3e-9, Unit.SIEMENS));
    FitResult.DifferenceCurve flat =
        new FitResult.DifferenceCurve(
            "before",
            "after",
            new double[] {100, 10000},
            new double[] {0, 0},
            new double[] {-0.03, -0.03},
            new double[] {0.03, 0.03},
            true);
    FitResult result =
        new FitResult(
            swap.job(),
            Optional.empty(),
            new Rows(rows),
            Optional.of(flat),
            Verdict.CLEAR,
            List.of(),
            List.of(),
            List.of(),
            List.of());
    assertEquals(
        "The pot swap left the load's conductance as it was, within ±4 nS (volume pot 238k ±14k →"
            + " 481k ±58k assumed); at 4 kHz that makes less than 0.03 dB of difference.",
        Headline.of(result));
  }

  @Test
  void doesNotCallAWideIntervalNoChange() {
    List<Row> rows = new ArrayList<>(swap.rows().list());
    rows.set(0, row("change.loadConductance", 3e-6, 21e-6, Unit.SIEMENS));
    FitResult.DifferenceCurve wide =
        new FitResult.DifferenceCurve(
            "before",
            "after",
            new double[] {100, 10000},
            new double[] {2, 2},
            new double[] {-6, -6},
            new double[] {10, 10},
            false);
    FitResult result =
        new FitResult(
            swap.job(),
            Optional.empty(),
            new Rows(rows),
            Optional.of(wide),
            Verdict.CLEAR,
            List.of(),
            List.of(),
            List.of(),
            List.of());
    assertEquals(
        "The pot swap changed the load's conductance by 3 ±21 µS, which may be nothing (volume pot"
            + " 238k ±14k → 481k ±58k assumed); the difference at 4 kHz, 2 ±8 dB, is not settled.",
        Headline.of(result));
  }

  @Test
  void saysALossAsALoss() {
    FitResult.DifferenceCurve curve = swap.difference().orElseThrow();
    FitResult.DifferenceCurve turned =
        new FitResult.DifferenceCurve(
            "after",
            "before",
            curve.hz(),
            negative(curve.decibel()),
            negative(curve.high()),
            negative(curve.low()),
            true);
    List<Row> rows = new ArrayList<>(swap.rows().list());
    rows.set(0, row("change.loadConductance", 2.23e-6, 0.02e-6, Unit.SIEMENS));
    FitResult result =
        new FitResult(
            swap.job(),
            swap.model(),
            new Rows(rows),
            Optional.of(turned),
            Verdict.CLEAR,
            List.of(),
            List.of(),
            List.of(),
            List.of());
    assertEquals(
        "The pot swap changed the load's conductance by 2.23 ±0.02 µS (volume pot 481k ±58k assumed"
            + " → 238k ±14k); at 4 kHz that takes away 2.05 ±0.07 dB; the coil is unchanged.",
        Headline.of(result));
  }

  @Test
  void doesNotCallTheCoilUnchangedOnADoubtfulFit() {
    List<Finding> doubts =
        List.of(
            Finding.of(FindingCode.NO_MODEL_FITS, "The model misses.", "", "look at the residuals")
                .about(List.of(key("pickup.inductance"))));
    assertEquals(
        "The pot swap changed the load's conductance by -2.23 ±0.02 µS (volume pot 238k ±14k → 481k"
            + " ±58k assumed); at 4 kHz that gives back 2.05 ±0.07 dB.",
        Headline.of(with(swap.job(), swap.rows().list(), doubts)));
  }

  @Test
  void leadsWithTheCoilForAFit() {
    assertEquals(
        "The coil measures 4.812 ±0.003 H, 8.214k ±0.005k and 131.0 ±1.7 pF; bare resonates at 6340"
            + " ±44 Hz, 18.20 ±0.07 dB high.",
        Headline.ofFit(ExampleResults.bareCoil()));
  }

  @Test
  void admitsWhenThereIsNothingToSay() {
    assertEquals(
        "These captures do not settle any value; the findings say why.",
        Headline.ofFit(with(swap.job(), List.of(), List.of())));
  }

  private Job cableSwap() {
    Job job = swap.job();
    Setup before = job.setups().get("before");
    Map<String, Setup> setups = new LinkedHashMap<>();
    setups.put("before", before);
    setups.put(
        "after",
        new Setup(
            "after",
            before.pickup(),
            before.volume(),
            before.tone(),
            before.toneCapacitor(),
            false,
            Optional.of("short lead"),
            Optional.empty()));
    return new Job(
        job.title(),
        job.source(),
        job.fixture(),
        job.mainsHz(),
        job.parts(),
        setups,
        job.captures(),
        job.notes());
  }

  private FitResult with(Job job, List<Row> rows, List<Finding> findings) {
    return new FitResult(
        job,
        swap.model(),
        new Rows(rows),
        rows.isEmpty() ? Optional.empty() : swap.difference(),
        new Verdict(findings),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }

  private static Row row(String key, double value, double half, Unit unit) {
    return new Row(
        key(key, unit), new Estimate(value, value - half, value + half, unit, Known.MEASURED));
  }

  private static void replace(List<Row> rows, Row row) {
    rows.replaceAll(old -> old.key().equals(row.key()) ? row : old);
  }

  private static double[] negative(double[] values) {
    double[] turned = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      turned[i] = -values[i];
    }
    return turned;
  }
}
