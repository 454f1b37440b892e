package org.trebleproof.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.trebleproof.audio.RecordingDate;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.Budget.Origin;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Job;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.Unit;
import org.trebleproof.report.ExampleResults;

/** What a customer is handed, and what stands behind it. */
class CustomerSheetTest {

  private static final LocalDate DAY = LocalDate.of(2026, 11, 3);

  private static FitResult with(FitResult r, Job job, Rows rows) {
    return FitResult.of(job, r.verdict())
        .withModel(r.model())
        .withRows(rows)
        .withDifferences(r.differences())
        .withCaptures(r.captures())
        .withSetupCurves(r.setups())
        .withTreble(r.treble())
        .withAdvice(r.advice());
  }

  private static String page(FitResult result) {
    return HtmlPage.of(result, "0.1.0", "2026-11-25");
  }

  private static String sheet(String page) {
    return page.substring(page.indexOf("<section class=\"sheet\">"), page.indexOf("</section>"));
  }

  @Test
  void saysWhoWhatWhereAndWhen() {
    FitResult swap = ExampleResults.potSwap();
    Job.Heading heading =
        new Job.Heading(Optional.of("A. <Player>"), Optional.of("Red one"), Optional.of("Bench 2"));
    FitResult result =
        with(swap, swap.job().withHeading(heading), swap.rows())
            .recorded(Map.of("before", new RecordingDate(DAY, true)));
    String sheet = sheet(page(result));
    assertTrue(sheet.contains("<dd>A. &lt;Player&gt;</dd>"), sheet);
    assertTrue(sheet.contains("<dd>Red one</dd>"));
    assertTrue(sheet.contains("Bench 2"));
    assertTrue(sheet.contains("3 November 2026, as the recordings say"));
    assertFalse(sheet.contains("2026-11-25"), "not when the page was written");
    assertTrue(page(result).contains("page written on 2026-11-25"));
    assertTrue(sheet.contains("class=\"sign\""));
    assertTrue(sheet.contains("Within its marking?"));
    assertTrue(sheet.contains("Change of level"));
    assertTrue(sheet.contains("id=\"difference-t\""), "before and after as curves");
  }

  @Test
  void aFilesDateIsCalledSo() {
    FitResult result =
        ExampleResults.potSwap()
            .recorded(
                Map.of(
                    "before",
                    new RecordingDate(DAY, true),
                    "after",
                    new RecordingDate(DAY.plusDays(2), false)));
    assertTrue(
        sheet(page(result))
            .contains("3 November 2026 to 5 November 2026, by the dates of the files"));
  }

  @Test
  void aRefusedJobIsNotToBeSigned() {
    assertFalse(page(ExampleResults.refused()).contains("class=\"sign\""));
  }

  private static FitResult.Row reading(Quantity quantity, int hz, double value) {
    RowKey key = new RowKey(Subject.setup("bare"), quantity, OptionalInt.of(hz));
    return new FitResult.Row(
        key, Estimate.normal(value, Math.abs(value) / 100, quantity.unit(), Known.MEASURED));
  }

  /** Above its resonance a coil is no inductor: no row makes a reader doubt all others. */
  @Test
  void whatMakesOneDoubtIsNotShown() {
    FitResult bare = ExampleResults.bareCoil();
    List<FitResult.Row> rows = new ArrayList<>();
    rows.add(reading(Quantity.SERIES_INDUCTANCE, 1000, 2.4));
    rows.add(reading(Quantity.SERIES_Q, 1000, 2.5));
    rows.add(reading(Quantity.SERIES_INDUCTANCE, 10000, -0.347));
    rows.add(reading(Quantity.SERIES_RESISTANCE, 10000, 5e3));
    rows.add(reading(Quantity.SERIES_Q, 10000, -4.11));
    rows.add(
        new FitResult.Row(
            RowKey.LOAD_CHANGE, Estimate.normal(1e-21, 1e-18, Unit.SIEMENS, Known.MEASURED)));
    String page = page(with(bare, bare.job(), new Rows(rows)));
    assertTrue(page.contains("inductance at 1 kHz"), "what a meter shows below it");
    assertFalse(page.contains("10 kHz</th>"), "nor what it shows above");
    assertFalse(page.contains("load conductance"));
    assertFalse(page.contains("none, none"));
    assertFalse(page.contains("criterion"), "models that lost");
  }

  /** Shares are those of the result file, and add up. */
  @Test
  void theEvidenceSaysWhereIntervalsComeFrom() {
    FitResult swap = ExampleResults.potSwap();
    RowKey key = swap.rows().of(Quantity.INDUCTANCE).list().get(0).key();
    Map<Origin, Double> squares = Budget.nothing();
    Budget.add(squares, new Origin(Source.MARKING, "clip"), 0.5);
    Budget.add(squares, Origin.of(Source.NOISE), 0.365);
    Budget.add(squares, Origin.of(Source.MODEL), 0.125);
    Budget.add(squares, Origin.of(Source.INPUT), 0.01);
    Budget budget = Budget.of(new Budget.Number.OfRow(key), Unit.HENRY, squares, 0.008);
    assertEquals(0.008, budget.uncertainty(), 1e-12);
    String page = page(swap.budgeted(List.of(budget)));
    assertFalse(sheet(page).contains("marking of clip"), "not on the customer's sheet");
    assertTrue(
        page.contains("<td>marking of clip 50 %, noise 37 %, choice of coil model 13 %</td>"),
        page.substring(page.indexOf("Where the intervals")).substring(0, 1500));
    assertTrue(page.contains("±16 mH"));
  }
}
