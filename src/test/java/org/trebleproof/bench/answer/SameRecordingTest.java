package org.trebleproof.bench.answer;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;

class SameRecordingTest {

  private static CaptureEntry capture(String id, String setup) {
    return new CaptureEntry(id, Path.of(id + ".wav"), setup, List.of());
  }

  private static Optional<Finding> among(String lastSetup, String... sha256) {
    return SameRecording.among(
        List.of(capture("a", "before"), capture("b", "before"), capture("c", lastSetup)),
        List.of(sha256));
  }

  @Test
  void differentFilesAreDifferentRecordings() {
    assertEquals(Optional.empty(), among("after", "1", "2", "3"));
  }

  @Test
  void whatIsSaidToDifferWasNotRecorded() {
    Finding finding = among("after", "1", "1", "1").orElseThrow();
    assertEquals(Finding.Severity.ERROR, finding.severity());
    assertTrue(finding.text().startsWith("Captures \"a\" and \"c\" are the same"), finding.text());
  }

  @Test
  void whatIsTheSameCountsTwice() {
    Finding finding = among("before", "1", "2", "1").orElseThrow();
    assertEquals(Finding.Severity.WARNING, finding.severity());
  }

  @ParameterizedTest
  @ValueSource(strings = {"swap-at-jack", "strikes-pot-swap"})
  void aFileNamedTwiceIsRefused(String sample) {
    Job job = JobReader.read(Path.of("sample-captures", sample, "job.json"));
    Path one = job.captures().get(0).file();
    FitResult result =
        new FitJob()
            .run(
                job.withCaptures(
                    job.captures().stream()
                        .map(c -> new CaptureEntry(c.id(), one, c.setup(), c.across()))
                        .toList()));
    assertTrue(result.verdict().refused());
    assertEquals(FindingCode.SAME_RECORDING, result.findings().get(0).code());
    assertTrue(result.rows().stream().allMatch(r -> r.estimate().isEmpty()));
  }
}
