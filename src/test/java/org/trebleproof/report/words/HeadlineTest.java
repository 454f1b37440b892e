package org.trebleproof.report.words;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;
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
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Unit;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.ExampleResults;

class HeadlineTest {

  private final FitResult swap = ExampleResults.potSwap();

  private static final String SWAP =
      "The new volume pot is about 481k ±58k (marked 500k, usual ±20 %: not read well enough to decide),"
          + " the old one reads 238k ±14k. ";

  @Test
  void saysWhatWasChangedThenWhatTheEarGets() {
    assertEquals(
        SWAP
            + "That gives back 2.05 ±0.07 dB at 3.9 kHz, on the edge of hearing; the coil is"
            + " unchanged.",
        Headline.of(swap));
  }

  @Test
  void saysWhetherAPartIsWhatItsMarkingSays() {
    List<Row> rows = new ArrayList<>(swap.rows().list());
    replace(rows, row("new volume.value", 520e3, 7e3, Unit.OHM));
    assertTrue(
        Headline.of(with(swap.job(), rows, swap.findings()))
            .startsWith(
                "The new volume pot reads 520k ±7k (marked 500k, usual ±20 %: within its marking), the old"
                    + " one 238k ±14k. That"));
    replace(rows, row("new volume.value", 655e3, 7e3, Unit.OHM));
    assertTrue(
        Headline.of(with(swap.job(), rows, swap.findings()))
            .contains("655k ±7k (marked 500k, usual ±20 %: outside its marking)"));
    replace(rows, row("new volume.value", 598e3, 7e3, Unit.OHM));
    assertTrue(
        Headline.of(with(swap.job(), rows, swap.findings()))
            .contains("598k ±7k (marked 500k, usual ±20 %: cannot be decided)"));
    replace(rows, row("old volume.value", 198e3, 2e3, Unit.OHM));
    assertTrue(
        Headline.of(with(swap.job(), rows, swap.findings()))
            .contains("the old one 198k ±2k (marked 250k, usual ±20 %: outside its marking)"));
  }

  @Test
  void callsLeadsByTheirNames() {
    List<Row> rows = new ArrayList<>(swap.rows().list());
    rows.add(row("lead.value", 482e-12, 4e-12, Unit.FARAD));
    rows.add(row("short lead.value", 180e-12, 3e-12, Unit.FARAD));
    assertEquals(
        "The short lead reads 180 ±3 pF (stated as 160p, usual ±20 %: within that), the lead 482 ±4"
            + " pF. That gives back 2.05 ±0.07 dB at 3.9 kHz, on the edge of hearing; the coil is"
            + " unchanged.",
        Headline.of(with(cableSwap(), rows, swap.findings())));
  }

  @Test
  void saysWhenNothingChanged() {
    assertEquals(
        SWAP + "That changes the level nowhere by more than 0.03 dB, not to be heard.",
        Headline.of(curve(swap.rows().list(), flat(0, 0.03, true))));
  }

  @Test
  void doesNotCallAWideIntervalNoChange() {
    assertEquals(
        SWAP + "That changes the level by 2 ±8 dB at 100 Hz, so it may be up or down.",
        Headline.of(curve(swap.rows().list(), flat(2, 8, false))));
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
    assertEquals(
        "The new volume pot reads 238k ±14k (marked 250k, usual ±20 %: within its marking), the old"
            + " one is about 481k ±58k (marked 500k, usual ±20 %: not read well enough to decide)."
            + " That takes away 2.05 ±0.07 dB at 3.9 kHz, on the edge of hearing.",
        Headline.of(curve(swap.rows().list(), turned)));
  }

  /** No part has a value, but the change was measured without a coil model. */
  @Test
  void fallsBackToTheChangeInDecibel() {
    List<Row> rows =
        new ArrayList<>(
            swap.rows()
                .withdrawn(k -> !k.equals(org.trebleproof.quantity.RowKey.LOAD_CHANGE))
                .list());
    String said = Headline.of(with(swap.job(), rows, swap.findings()));
    assertEquals(
        "The new volume pot gives back 2.05 ±0.07 dB at 3.9 kHz, on the edge of hearing. This is"
            + " measured without a coil model; what the parts read cannot be said.",
        said);
    assertFalse(said.contains("µS"), said);
  }

  @Test
  void namesWithDotsAndQuotesAreNoHindrance() {
    Job odd = renamed(swap.job(), "new volume", "R.2 \"log\" a.value");
    List<Row> rows = new ArrayList<>(swap.rows().list());
    rows.add(row(odd, "R.2 \"log\" a.value", 520e3, 7e3));
    String said = Headline.of(with(odd, rows, swap.findings()));
    assertTrue(said.startsWith("The new volume pot reads 520k ±7k"), said);
  }

  @Test
  void doesNotCallTheCoilUnchangedOnADoubtfulFit() {
    List<Finding> doubts =
        List.of(
            Finding.of(FindingCode.NO_MODEL_FITS, "The model misses.", "", "look at the residuals")
                .about(List.of(key("pickup.inductance"))));
    assertFalse(Headline.of(with(swap.job(), swap.rows().list(), doubts)).contains("unchanged"));
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
    Map<String, Part> parts = new LinkedHashMap<>(job.parts());
    parts.put(
        "short lead",
        new Part("short lead", Part.Kind.CABLE, Optional.of(new Marking(160e-12, 0.2, false))));
    return job.withParts(parts).withSetups(setups);
  }

  /** The same job with one pot called otherwise. */
  private static Job renamed(Job job, String pot, String name) {
    Map<String, Part> parts = new LinkedHashMap<>(job.parts());
    Part old = parts.remove(pot);
    parts.put(name, new Part(name, old.kind(), old.marking()));
    Map<String, Setup> setups = new LinkedHashMap<>();
    job.setups()
        .forEach(
            (key, s) ->
                setups.put(
                    key,
                    new Setup(
                        key,
                        s.pickup(),
                        s.volume()
                            .map(
                                u ->
                                    u.part().equals(pot)
                                        ? new Setup.PotUse(name, u.rotation(), u.centreRatio())
                                        : u),
                        s.tone(),
                        s.toneCapacitor(),
                        false,
                        s.cable(),
                        Optional.empty())));
    return job.withParts(parts).withSetups(setups);
  }

  private static Row row(Job job, String part, double value, double half) {
    return new Row(
        job.parts().get(part).row(),
        new Estimate(value, value - half, value + half, Unit.OHM, Known.MEASURED));
  }

  private static FitResult.DifferenceCurve flat(double value, double half, boolean coilFree) {
    double[] hz = new double[200];
    double[] decibel = new double[200];
    double[] low = new double[200];
    double[] high = new double[200];
    for (int i = 0; i < hz.length; i++) {
      hz[i] = 100 * Math.pow(100, i / 199.0);
      decibel[i] = value;
      low[i] = value - half;
      high[i] = value + half;
    }
    return new FitResult.DifferenceCurve("before", "after", hz, decibel, low, high, coilFree);
  }

  private FitResult curve(List<Row> rows, FitResult.DifferenceCurve curve) {
    return FitResult.of(swap.job(), Verdict.CLEAR)
        .withRows(new Rows(rows))
        .withDifferences(List.of(curve));
  }

  private FitResult with(Job job, List<Row> rows, List<Finding> findings) {
    return FitResult.of(job, new Verdict(findings))
        .withModel(swap.model())
        .withRows(new Rows(rows))
        .withDifferences(rows.isEmpty() ? List.of() : swap.differences());
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
