package org.trebleproof.bench.live;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.device.TransportRun;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.PreFlight;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.signal.sweep.SweepMeasurement;
import org.trebleproof.signal.sweep.SweepTiming;
import org.trebleproof.signal.sweep.SweepTransfer;

/**
 * Whether a take just recorded is sound: the pre-flight of any capture, and what only the player
 * can know, namely that all that was played came back, evenly and once.
 *
 * @param measurement what was measured
 * @param verdict on it
 * @param clockOffset recording clock over playback clock, minus 1, where there were two sweeps
 */
public record TakeCheck(SweepMeasurement measurement, Verdict verdict, OptionalDouble clockOffset) {

  /** The sweeps' arrivals deviate from an even clock by less, unless sound was lost [s]. */
  private static final double EVEN = 2e-6;

  /** An offset within one interface, beyond what its single crystal can show. */
  private static final double ONE_CLOCK = 1e-6;

  /**
   * Checks a take.
   *
   * @param capture its name, for the sentences
   * @param bench what it was recorded with
   * @param stimulus what was played
   * @param run how the transport fared
   * @param expected findings that are no fault here
   */
  static TakeCheck of(
      String capture,
      Path file,
      Fixture fixture,
      OptionalDouble mainsHz,
      LiveBench bench,
      Stimulus stimulus,
      TransportRun run,
      Set<FindingCode> expected) {
    Recording recording = SoundFile.read(file);
    float[] reference = recording.channel(bench.referenceChannel());
    // Someone waits for the light: the two halves, about alike in size, are worked out at once.
    CompletableFuture<Optional<SweepTiming>> arrivals =
        CompletableFuture.supplyAsync(
            () ->
                SweepTiming.of(
                    reference,
                    recording.sampleRate(),
                    stimulus.sweep().samples(),
                    stimulus.repeats(),
                    stimulus.period()));
    SweepMeasurement measurement =
        SweepTransfer.measure(
            reference, recording.channel(bench.deviceChannel()), recording.sampleRate(), mainsHz);
    List<Finding> findings =
        new ArrayList<>(PreFlight.of(capture, fixture, measurement).findings());
    Optional<SweepTiming> timing = arrivals.join();
    findings.removeIf(f -> expected.contains(f.code()));
    timing(capture, bench, stimulus, run, timing).forEach(f -> findings.add(f.in(capture)));
    return new TakeCheck(
        measurement,
        new Verdict(findings),
        timing.filter(t -> stimulus.repeats() > 1).isPresent()
            ? OptionalDouble.of(timing.orElseThrow().clockOffset())
            : OptionalDouble.empty());
  }

  private static List<Finding> timing(
      String capture,
      LiveBench bench,
      Stimulus stimulus,
      TransportRun run,
      Optional<SweepTiming> timing) {
    String queues =
        run.unbroken()
            ? ""
            : String.format(
                Locale.ROOT,
                "; playback ran dry %d times, recording ran over %d times",
                run.dryQueues(),
                run.fullQueues());
    if (timing.isEmpty()) {
      return List.of(
          interrupted(
              capture,
              "not every one of the "
                  + stimulus.repeats()
                  + " sweeps was found where it was played"
                  + queues));
    }
    SweepTiming t = timing.get();
    double offset = stimulus.repeats() > 1 ? t.clockOffset() : 0;
    // With two sweeps a lost block looks just so, which is why the take is repeated.
    if (t.unevenness() <= EVEN && Math.abs(offset) > SweepTiming.LARGEST_OFFSET) {
      return List.of(
          Finding.of(
              FindingCode.CLOCKS_APART,
              "Capture "
                  + capture
                  + ": playback and recording run at different speeds, farther apart than clocks"
                  + " may be.",
              String.format(Locale.ROOT, "recording is %+.1f ppm fast%s", 1e6 * offset, queues),
              "Set both devices to one sample rate, or use one interface for both."));
    }
    if (t.unevenness() > EVEN || Math.abs(offset) > SweepTiming.LARGEST_OFFSET) {
      return List.of(
          interrupted(
              capture,
              String.format(
                  Locale.ROOT,
                  "the sweeps arrive up to %.3f ms off an even clock, %+.1f ppm fast%s",
                  1000 * t.unevenness(),
                  1e6 * offset,
                  queues)));
    }
    List<Finding> findings = new ArrayList<>();
    if (Math.abs(offset) > Math.max(ONE_CLOCK, 5 * t.clockOffsetSd())) {
      String text =
          "Capture "
              + capture
              + ": playback and recording do not run on one clock; both recorded"
              + " channels do, so the result stands.";
      String evidence = String.format(Locale.ROOT, "recording is %+.2f ppm fast", 1e6 * offset);
      findings.add(
          Finding.of(
              FindingCode.TWO_CLOCKS,
              text,
              evidence,
              bench.oneDevice()
                  ? "Nothing, unless both are the same interface: then sound was lost."
                  : "Nothing; one interface for both would leave one clock."));
    }
    if (!run.unbroken()) {
      findings.add(
          Finding.of(
              FindingCode.QUEUE_RAN_OUT,
              "Capture " + capture + ": the computer was late once, but no sound was lost.",
              queues.substring(2),
              "Close other programs before the next recording."));
    }
    return findings;
  }

  private static Finding interrupted(String capture, String evidence) {
    return Finding.of(
        FindingCode.PLAYBACK_INTERRUPTED,
        "Capture " + capture + ": sound was lost or held up between playing and recording.",
        evidence,
        "Close other programs, use one interface for both, and record it again.");
  }

  /** Device over reference; empty when no sweep was found. */
  public Response response() {
    return measurement.response();
  }

  /** All findings, the gravest first. */
  public List<Finding> findings() {
    return verdict.findings();
  }

  /** Whether an error refuses the take. */
  public boolean refused() {
    return verdict.refused();
  }

  /** The error to name: one that repeating does not help before one that it may. */
  public Finding worst() {
    return verdict.errors().stream()
        .filter(f -> f.code().remedy() != FindingCode.Remedy.AGAIN)
        .findFirst()
        .or(verdict::cause)
        .orElseThrow();
  }

  /** Whether all that refuses it may be gone when it is recorded once more. */
  boolean worthRepeating() {
    return refused()
        && verdict.errors().stream().allMatch(f -> f.code().remedy() == FindingCode.Remedy.AGAIN);
  }
}
