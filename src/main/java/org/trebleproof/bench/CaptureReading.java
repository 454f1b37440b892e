package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.fixture.PreFlight;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Response;
import org.trebleproof.signal.SweepMeasurement;
import org.trebleproof.signal.SweepTransfer;

/**
 * One capture, read and measured.
 *
 * @param entry the capture
 * @param measured device over reference, polarity corrected, with what the recording path leaves
 *     out in its standard deviations; empty when refused
 * @param measurement all that was measured
 * @param findings of the pre-flight
 */
record CaptureReading(
    CaptureEntry entry,
    Response measured,
    SweepMeasurement measurement,
    List<Finding> findings,
    double sampleRate,
    int bits,
    String sha256) {

  static CaptureReading read(Job job, CaptureEntry entry) {
    Recording recording = SoundFile.read(entry.file());
    float[] reference = recording.channel(job.fixture().referenceChannel());
    float[] device = recording.channel(job.fixture().deviceChannel());
    SweepMeasurement measurement =
        SweepTransfer.measure(reference, device, recording.sampleRate(), job.mainsHz());
    PreFlight preFlight = PreFlight.of(entry.id(), job.fixture(), measurement);
    List<Finding> findings = new ArrayList<>(preFlight.findings());
    job.calibration().flatMap(c -> c.mismatch(recording.sampleRate())).ifPresent(findings::add);
    return new CaptureReading(
        entry,
        withFloor(preFlight.upright(measurement.response())),
        measurement,
        findings,
        recording.sampleRate(),
        recording.bits(),
        SoundFile.sha256(entry.file()));
  }

  private static Response withFloor(Response r) {
    double[] sd = new double[r.size()];
    for (int i = 0; i < sd.length; i++) {
      sd[i] = Math.hypot(r.sd()[i], RecordingPath.POINT * r.magnitude(i));
    }
    return new Response(r.hz(), r.re(), r.im(), sd);
  }

  boolean usable() {
    return measured.size() > 0
        && findings.stream().noneMatch(f -> f.severity() == Finding.Severity.ERROR);
  }
}
