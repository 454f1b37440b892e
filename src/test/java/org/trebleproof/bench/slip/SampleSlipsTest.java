package org.trebleproof.bench.slip;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobEdit;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Marking;
import org.trebleproof.report.words.Headline;

/** The sample jobs, whose recordings ngspice has made, each with one slip in what is said of it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
final class SampleSlipsTest {

  private final Map<String, Job> jobs = new HashMap<>();

  private Job sample(String name) {
    return jobs.computeIfAbsent(
        name, n -> JobReader.read(Path.of("sample-captures", n, "job.json")));
  }

  private static FitResult with(Job job, JobEdit... slips) {
    Job slipped = job;
    for (JobEdit slip : slips) {
      slipped = slip.applied(slipped);
    }
    return new FitJob().run(slipped);
  }

  private static Slip named(Slip.Kind kind, FitResult result) {
    assertTrue(result.verdict().refused(), "no number on the footing of a slip");
    assertEquals(
        FindingCode.SLIP_LIKELY, result.verdict().cause().orElseThrow().code(), result.toString());
    Slip first = result.slips().get(0);
    assertEquals(kind, first.kind(), first.text());
    assertEquals(first.text(), Headline.of(result));
    return first;
  }

  private static Fixture.Series series(Job job) {
    return (Fixture.Series) job.fixture();
  }

  @Test
  void exchangedFilesAreNamedFirst() {
    Slip slip =
        named(
            Slip.Kind.FILES_EXCHANGED,
            with(sample("pot-swap"), new JobEdit.Exchanged("before clipped", "after")));
    assertEquals(
        "It looks as if after.flac and before-1n.flac are exchanged: taken the other way round,"
            + " everything agrees.",
        slip.text());
    assertEquals(List.of("before clipped", "after"), slip.at());
  }

  @Test
  void putRightTheJobStands() {
    FitResult slipped = with(sample("pot-swap"), new JobEdit.Exchanged("before clipped", "after"));
    FitResult right = new FitJob().run(slipped.slips().get(0).corrected(slipped.job()));
    assertTrue(right.verdict().stands(), right.verdict().toString());
    assertTrue(right.slips().isEmpty());
  }

  @Test
  void aPartThatNobodyWroteDown() {
    Slip slip =
        named(
            Slip.Kind.PART_NOT_STATED,
            with(sample("pot-swap"), new JobEdit.Across("before clipped", List.of())));
    assertEquals(List.of("before clipped", "clip"), slip.at());
  }

  @Test
  void aPartThatWasNotThere() {
    Slip slip =
        named(
            Slip.Kind.PART_NOT_THERE,
            with(sample("pot-swap"), new JobEdit.Across("after", List.of("clip"))));
    assertEquals(List.of("after", "clip"), slip.at());
  }

  @Test
  void anotherLead() {
    Job job = sample("treble-complaint");
    named(
        Slip.Kind.OTHER_LEAD,
        with(job, new JobEdit.Placed("long lead", Slot.CABLE, Optional.of("3 m lead"), 1)));
  }

  @Test
  void aLostPrefix() {
    Slip slip =
        named(
            Slip.Kind.PREFIX,
            with(sample("pot-swap"), new JobEdit.Marked("clip", new Marking(1e-12, 0.01, true))));
    assertEquals(List.of("clip"), slip.at());
  }

  @Test
  void aControlThatWasTurnedDown() {
    // Said to stand at half its track where it was full up: not a slip of the list.
    Job job = sample("swap-at-jack");
    FitResult result =
        with(job, new JobEdit.Placed("after", Slot.VOLUME, Optional.of("new volume"), 0.5));
    assertTrue(!result.verdict().stands());
  }

  @Test
  void swappedChannels() {
    Fixture.Series s = series(sample("swap-at-jack"));
    named(
        Slip.Kind.CHANNELS_SWAPPED,
        with(
            sample("swap-at-jack"),
            new JobEdit.Taken(
                new Fixture.Series(
                    s.seriesResistance(),
                    s.channels(),
                    s.deviceChannel(),
                    s.referenceChannel(),
                    s.input()))));
  }

  @Test
  void aWrongRateInOneFile() {
    Slip slip =
        named(
            Slip.Kind.WRONG_RATE,
            with(
                sample("pot-swap"),
                new JobEdit.Handled("after", CaptureEntry.Handling.USUAL.at(44100))));
    assertEquals(List.of("after"), slip.at());
  }

  @Test
  void aWrongRateInEveryFile() {
    named(
        Slip.Kind.WRONG_RATE,
        with(
            sample("unlabelled-coil"),
            new JobEdit.Handled("bare", CaptureEntry.Handling.USUAL.at(44100))));
  }

  @Test
  void theWrongFixture() {
    Fixture.Series s = series(sample("swap-at-jack"));
    named(
        Slip.Kind.WRONG_FIXTURE,
        with(
            sample("swap-at-jack"),
            new JobEdit.Taken(
                new Fixture.Exciter(
                    false, s.channels(), s.referenceChannel(), s.deviceChannel(), s.input()))));
  }

  @Test
  void anotherSeriesResistor() {
    Fixture.Series s = series(sample("swap-at-jack"));
    Slip slip =
        named(
            Slip.Kind.SERIES_RESISTOR,
            with(
                sample("swap-at-jack"),
                new JobEdit.Taken(
                    new Fixture.Series(
                        new Marking(47e3, 0.001, true),
                        s.channels(),
                        s.referenceChannel(),
                        s.deviceChannel(),
                        s.input()))));
    assertTrue(slip.text().contains("100k"), slip.text());
  }

  @Test
  void goodJobsHaveNoSlip() {
    for (String name : List.of("pot-swap", "swap-at-jack", "treble-complaint", "unlabelled-coil")) {
      FitResult result = new FitJob().run(sample(name));
      assertTrue(result.verdict().stands(), name + " " + result.verdict());
      assertTrue(result.slips().isEmpty(), name + " " + result.slips());
    }
  }
}
