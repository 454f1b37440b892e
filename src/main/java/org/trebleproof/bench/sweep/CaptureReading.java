package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.DoubleConsumer;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.fixture.OneChannelCapture;
import org.trebleproof.fixture.PreFlight;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.signal.sweep.SweepMeasurement;
import org.trebleproof.signal.sweep.SweepTransfer;

/**
 * One capture, read and measured.
 *
 * @param entry the capture
 * @param measured device over reference, polarity corrected, with what the recording path leaves
 *     out in its standard deviations; empty when refused
 * @param measurement all that was measured
 * @param findings of the pre-flight
 */
public record CaptureReading(
    CaptureEntry entry,
    Response measured,
    SweepMeasurement measurement,
    List<Finding> findings,
    double sampleRate,
    int bits,
    String sha256) {

  /** Reads and measures a capture, without being asked how far that is. */
  public static CaptureReading read(Job job, CaptureEntry entry) {
    return read(job, entry, share -> {});
  }

  /**
   * Reads and measures a capture.
   *
   * @param heard is told the share of its file that was heard
   */
  public static CaptureReading read(Job job, CaptureEntry entry, DoubleConsumer heard) {
    List<Finding> findings = new ArrayList<>();
    boolean oneChannel = job.fixture().played().isPresent();
    boolean turned = entry.handling().swapped() && !oneChannel;
    int device = turned ? job.fixture().referenceChannel() : job.fixture().deviceChannel();
    int reference =
        oneChannel || turned ? job.fixture().deviceChannel() : job.fixture().referenceChannel();
    SweepTake take =
        SweepTake.read(entry.id(), entry.file(), reference, device, SweepTake.LONG, heard)
            .recordedAt(entry.handling().sampleRate());
    take.excerpt().ifPresent(findings::add);
    Optional<OneChannelCapture> alone =
        job.fixture()
            .played()
            .map(p -> OneChannelCapture.of(entry.id(), entry.file(), device, p, job.mainsHz()));
    SweepMeasurement measurement =
        alone
            .map(OneChannelCapture::measurement)
            .orElseGet(
                () ->
                    SweepTransfer.measure(
                        take.reference(), take.device(), take.sampleRate(), job.mainsHz()));
    PreFlight preFlight = PreFlight.of(entry.id(), job.fixture(), measurement);
    findings.addAll(preFlight.findings());
    alone.ifPresent(a -> a.findings().forEach(f -> findings.add(f.in(entry.id()))));
    job.calibration().flatMap(c -> c.mismatch(take.sampleRate())).ifPresent(findings::add);
    return new CaptureReading(
        entry,
        withFloor(
            preFlight.upright(measurement.response()),
            Math.hypot(
                RecordingPath.POINT, alone.map(OneChannelCapture::interfaceSpread).orElse(0.0))),
        measurement,
        findings,
        take.sampleRate(),
        take.bits(),
        SoundFile.sha256(entry.file()));
  }

  private static Response withFloor(Response r, double floor) {
    double[] sd = new double[r.size()];
    for (int i = 0; i < sd.length; i++) {
      sd[i] = Math.hypot(r.sd()[i], floor * r.magnitude(i));
    }
    return new Response(r.hz(), r.re(), r.im(), sd);
  }

  /** The same with another response. */
  CaptureReading with(Response response) {
    return new CaptureReading(entry, response, measurement, findings, sampleRate, bits, sha256);
  }

  public boolean usable() {
    return measured.size() > 0 && !new Verdict(findings).refused();
  }
}
