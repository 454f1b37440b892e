package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Response;

class AlikeCapturesTest {
  private static final Job GOOD = JobReader.read(Path.of("sample-captures/pot-swap/job.json"));

  private static Optional<Finding> check(Map<String, Setup> setups, List<CaptureEntry> captures) {
    Map<String, Response> measured = new LinkedHashMap<>();
    for (CaptureEntry capture : captures) {
      measured.put(capture.id(), CaptureReading.read(GOOD, capture).measured());
    }
    Job job = GOOD.withSetups(setups).withCaptures(captures);
    return AlikeCaptures.disagreeing(job, measured);
  }

  @Test
  void aGoodJobHasNone() {
    assertEquals(Optional.empty(), check(GOOD.setups(), GOOD.captures()));
  }

  @Test
  void aForgottenClipIsAskedFor() {
    List<CaptureEntry> forgotten =
        GOOD.captures().stream()
            .map(c -> new CaptureEntry(c.id(), c.file(), c.setup(), List.of()))
            .toList();
    Finding finding = check(GOOD.setups(), forgotten).orElseThrow();
    assertTrue(finding.text().contains("\"before\" and \"before clipped\""), finding.text());
    assertTrue(finding.next().contains("across"), finding.next());
  }

  @Test
  void aSwapThatTheJobDoesNotNameIsAskedFor() {
    Map<String, Setup> same = new LinkedHashMap<>(GOOD.setups());
    Setup before = same.get("before");
    same.put(
        "after",
        new Setup(
            "after",
            before.pickup(),
            before.volume(),
            before.tone(),
            before.toneCapacitor(),
            before.toneAfterVolume(),
            before.cable(),
            before.dcResistance(),
            before.extras()));
    Finding finding = check(same, GOOD.captures()).orElseThrow();
    assertTrue(finding.text().contains("wired alike"), finding.text());
  }
}
