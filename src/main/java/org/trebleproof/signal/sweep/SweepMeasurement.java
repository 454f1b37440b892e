package org.trebleproof.signal.sweep;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.quantity.Response;

/**
 * What one capture says.
 *
 * @param sampleRate of the recording [Hz]
 * @param response device over reference on a grid of 20 Hz 2^(i/24); empty when no sweep was found
 * @param coherence share of the device's power that the reference explains, per point, 0 to 1
 * @param law how the sweep's frequency runs; empty when no sweep was found
 * @param sweeps where the sweeps sound, whole ones only
 * @param harmonics distortion of the device
 * @param mainsHz mains frequency where hum was heard [Hz]
 * @param health facts about the capture
 */
public record SweepMeasurement(
    double sampleRate,
    Response response,
    double[] coherence,
    Optional<SweepLaw> law,
    List<SweepPlace> sweeps,
    HarmonicLevels harmonics,
    OptionalDouble mainsHz,
    CaptureHealth health) {
  public SweepMeasurement {
    sweeps = List.copyOf(sweeps);
  }
}
