package org.trebleproof.report.words;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.report.page.HtmlPage;

/** A job that describes what will be after the mod before it was recorded. */
class UnrecordedSetupTest {

  private static FitResult beforeOnly(String sample) {
    Job all = JobReader.read(Path.of("sample-captures", sample, "job.json"));
    return new FitJob()
        .run(
            all.withCaptures(
                all.captures().stream().filter(c -> c.setup().equals("before")).toList()));
  }

  @ParameterizedTest
  @ValueSource(strings = {"pot-swap", "strikes-pot-swap"})
  void nothingThatIsSaidOfItIsCalledMeasured(String sample) {
    FitResult result = beforeOnly(sample);
    result.rows().stream()
        .filter(r -> r.key().text().startsWith("after.") || r.key().text().startsWith("change."))
        .forEach(
            r -> assertEquals(Known.DERIVED, r.estimate().orElseThrow().known(), r.key().text()));
    assertTrue(
        result.findings().stream().anyMatch(f -> f.code() == FindingCode.SETUP_NOT_RECORDED),
        result.findings().toString());
    assertTrue(Headline.ofFit(result).contains("would resonate"), Headline.ofFit(result));
  }

  @Test
  void theSentenceSaysSoFirst() {
    String headline = Headline.of(beforeOnly("pot-swap"));
    assertTrue(headline.startsWith("Predicted, as \"after\" was not recorded"), headline);
    assertFalse(headline.contains("unchanged"), headline);
  }

  @ParameterizedTest
  @ValueSource(strings = {"pot-swap", "strikes-pot-swap"})
  void itsPageIsWritten(String sample) {
    String page = HtmlPage.of(beforeOnly(sample), "1", "2026-01-01");
    assertTrue(page.contains("not recorded"), "the page says so");
  }
}
