package org.trebleproof.report.file;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.page.HtmlPage;
import org.trebleproof.report.page.StrikePlots;

/** Two setups can be drawn over each other; a third is not to be lost. */
class PartialsOfThreeSetupsTest {

  private static final StrikeEvidence.Partial SECOND =
      new StrikeEvidence.Partial(
          110, 2, 220, new double[] {-30, -32, -37}, new double[] {0.5, 0.5, 0.5});
  private static final StrikeEvidence.Partial THIRD =
      new StrikeEvidence.Partial(
          110, 3, 330, new double[] {-40, -41, Double.NaN}, new double[] {0.5, 0.5, Double.NaN});

  private static FitResult result() {
    StrikeEvidence evidence =
        new StrikeEvidence(
            List.of("before", "after", "other lead"),
            List.of(),
            List.of(SECOND, THIRD),
            new StrikeEvidence.Scatter(1, 0.01, 0.5),
            0,
            0,
            OptionalInt.empty());
    return FitResult.of(
            JobReader.read(Path.of("sample-captures/strikes-pot-swap/job.json")), Verdict.CLEAR)
        .withStrikes(Optional.of(evidence));
  }

  @Test
  void thePageSaysWhichAreDrawnAndNumbersAll() {
    String page = HtmlPage.of(result(), "1", "2026-01-01");
    assertTrue(
        page.contains("filled is before, hollow is after; other lead only in numbers"), page);
    assertTrue(page.contains("other lead over before, dB"), page);
    // -37 less -30, the bar by 1.96 times 0.5 times the root of two
    assertTrue(page.contains("−7.0 ±1.4"), page);
    assertTrue(page.contains("not heard"), page);
  }

  @Test
  void eachCanBeDrawnBesideTheFirst() {
    StrikePlots plots = new StrikePlots(result());
    assertEquals(List.of("after", "other lead"), plots.others());
    assertEquals(List.of("before", "after"), plots.shown());
    StrikePlots chosen = plots.beside("other lead");
    assertEquals(List.of("before", "other lead"), chosen.shown());
    assertEquals(-37, chosen.note(110).series().get(1).values()[0]);
  }

  @Test
  void theTableOfCurvesHasEveryPartialThatWasHeard() {
    List<String> rows =
        CurvesCsv.of(result()).lines().filter(l -> l.startsWith("partial,")).toList();
    assertEquals(5, rows.size(), rows.toString());
    assertTrue(
        rows.contains("partial,other lead,220.0000,-37.00000,-37.97998,-36.02002,,,,,"),
        rows.toString());
  }
}
