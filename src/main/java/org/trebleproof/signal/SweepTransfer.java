package org.trebleproof.signal;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.quantity.Response;

/**
 * Measures the transfer from reference to device out of a recording of exponential sweeps, one
 * sweep at a time.
 */
public final class SweepTransfer {

  private static final double POINTS_PER_OCTAVE = 24;
  private static final double LOWEST_HZ = 20;
  private static final double HIGHEST_HZ = 20000;

  /** Highest usable share of the sample rate. */
  private static final double HIGHEST_SHARE = 0.45;

  /** How far the windows reach beyond the grid's ends, as a ratio. */
  private static final double MARGIN = Math.pow(2, 0.125);

  /** Grid points where the sweep's power is below this share of its usual one are left out. */
  private static final double LEAST_POWER = 0.01;

  /** Bias allowed to the regression, relative to the value: part of every standard deviation. */
  private static final double BIAS = 2e-6;

  /** A delay between the channels beyond this is taken out before the regression [s]. */
  private static final double NOTABLE_DELAY = 20e-6;

  /** Up to here the leakage of hum that is not yet removed may bend the curve [Hz]. */
  private static final double HUM_REACH = 400;

  private SweepTransfer() {}

  /**
   * Measures a capture.
   *
   * @param reference what drove the device, full scale 1
   * @param device what the device gave, as long as the reference
   * @param sampleRate [Hz]
   * @param mainsHz nominal mains frequency where known [Hz]
   */
  public static SweepMeasurement measure(
      float[] reference, float[] device, double sampleRate, OptionalDouble mainsHz) {
    List<SweepPlace> found = SweepFinder.find(reference, sampleRate);
    List<SweepPlace> whole = whole(found);
    if (whole.isEmpty()) {
      return new SweepMeasurement(
          new Response(new double[0], new double[0], new double[0], new double[0]),
          new double[0],
          Optional.empty(),
          List.of());
    }
    double top = Math.min(HIGHEST_HZ, HIGHEST_SHARE * sampleRate);
    double reach = Math.min(top * MARGIN, 0.499 * sampleRate);
    FrequencyCells cells = null;
    LocalTransfer local = null;
    SweepLaw law = null;
    double[] hz = null;
    int cellsLength = -1;
    double delay = 0;
    Repeats repeats = null;
    Silence silence = new Silence(found, reference.length, sampleRate);
    MainsHum deviceHum = MainsHum.in(device, sampleRate, silence, mainsHz);
    MainsHum referenceHum = MainsHum.at(reference, sampleRate, silence, deviceHum.hz());
    boolean humHeard = deviceHum.isHeard() || referenceHum.isHeard();
    for (SweepPlace place : whole) {
      int stop = reference.length;
      for (SweepPlace other : found) {
        if (other.start() > place.start()) {
          stop = Math.min(stop, other.start() - (int) (0.02 * sampleRate));
        }
      }
      SweepSegment segment = SweepSegment.of(reference, device, place, stop, sampleRate, reach);
      if (cells == null || segment.transformLength != cellsLength) {
        cells = new FrequencyCells(segment, LOWEST_HZ / MARGIN);
        cellsLength = segment.transformLength;
      }
      LineRemoval lines = new LineRemoval(segment, deviceHum.hz());
      lines.subtractHeard(referenceHum, segment.referenceRe, segment.referenceIm, 0);
      lines.subtractHeard(deviceHum, segment.deviceRe, segment.deviceIm, 0);
      if (law == null) {
        law = segment.law(place);
        delay = segment.delay(0.95 * top);
        if (Math.abs(delay) < NOTABLE_DELAY) {
          delay = 0;
        }
      }
      if (delay != 0) {
        segment.advanceDevice(delay);
      }
      cells.gather(segment);
      if (local == null) {
        hz = grid(cells, top);
        local = new LocalTransfer(hz, POINTS_PER_OCTAVE);
        repeats = new Repeats(hz.length);
        local.plan(cells, humHeard ? HUM_REACH : 0);
        local.estimate(cells);
        if (humHeard) {
          lines.clean(local, cells);
          local.plan(cells, 0);
        }
      }
      local.begin();
      local.estimate(cells);
      if (humHeard) {
        lines.clean(local, cells);
      }
      repeats.add(local);
    }
    Response response = repeats.combined(hz, delay, BIAS);
    return new SweepMeasurement(response, repeats.coherence(), Optional.of(law), whole);
  }

  /** Sweeps as long as the longest; one that the file's end cuts off is shorter. */
  private static List<SweepPlace> whole(List<SweepPlace> found) {
    int longest = 0;
    for (SweepPlace place : found) {
      longest = Math.max(longest, place.length());
    }
    List<SweepPlace> whole = new ArrayList<>();
    for (SweepPlace place : found) {
      if (place.length() >= 0.98 * longest) {
        whole.add(place);
      }
    }
    return whole;
  }

  private static double[] grid(FrequencyCells cells, double top) {
    int count = (int) Math.floor(POINTS_PER_OCTAVE * Math.log(top / LOWEST_HZ) / Math.log(2)) + 1;
    double[] hz = new double[count];
    double[] power = new double[count];
    double half = Math.log(2) / POINTS_PER_OCTAVE / 2;
    for (int i = 0; i < count; i++) {
      hz[i] = LOWEST_HZ * Math.pow(2, i / POINTS_PER_OCTAVE);
      double ln = Math.log(hz[i]);
      power[i] = cells.densityTimesFrequency(ln - half, ln + half);
    }
    double[] sorted = power.clone();
    Arrays.sort(sorted);
    double least = LEAST_POWER * sorted[count / 2];
    int first = 0;
    int last = count;
    while (first < last && power[first] < least) {
      first++;
    }
    while (last > first && power[last - 1] < least) {
      last--;
    }
    return Arrays.copyOfRange(hz, first, last);
  }
}
