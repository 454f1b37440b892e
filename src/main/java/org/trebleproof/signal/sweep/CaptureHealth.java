package org.trebleproof.signal.sweep;

import java.util.List;

/**
 * Facts about a capture from which its fitness is judged.
 *
 * @param reference the reference channel
 * @param device the device channel
 * @param repeats each later sweep against the first
 * @param sweepsFound number of sweeps, cut ones included
 * @param sweepsCut number that the file's beginning or end cuts off
 * @param noiseRatio noise power during the sweeps over what the silence says, above 1.5 kHz, median
 *     over frequency; NaN where there is no silence
 * @param humRatio strength of hum during the sweeps over that in the silence; NaN without hum
 * @param lawStep largest sudden jump of the reference's own group delay off the sweep's law [s]
 */
public record CaptureHealth(
    ChannelHealth reference,
    ChannelHealth device,
    List<RepeatComparison> repeats,
    int sweepsFound,
    int sweepsCut,
    double noiseRatio,
    double humRatio,
    double lawStep) {
  public CaptureHealth {
    repeats = List.copyOf(repeats);
  }
}
