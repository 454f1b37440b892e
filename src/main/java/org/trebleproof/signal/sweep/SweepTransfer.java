package org.trebleproof.signal.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.quantity.Response;

/**
 * Measures the transfer from reference to device out of a recording of exponential sweeps, one
 * sweep at a time, so that memory holds one sweep's spectra only.
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

  /**
   * Quantile of the grid points' powers that is the sweep's usual one: high, since a sweep may
   * leave out most of the grid.
   */
  private static final double USUAL_POWER = 0.9;

  /** Bias allowed to the regression, relative to the value: part of every standard deviation. */
  private static final double BIAS = 2e-6;

  /** A delay between the channels beyond this is taken out before the regression [s]. */
  private static final double NOTABLE_DELAY = 20e-6;

  /** Up to here the leakage of hum that is not yet removed may bend the curve [Hz]. */
  private static final double HUM_REACH = 400;

  /** Above this, noise is compared with the silence's: hum is over [Hz]. */
  private static final double NOISE_FROM = 1500;

  /** Silence that must be there at the file's ends, lest a sweep is cut [s]. */
  private static final double SILENT_END = 0.012;

  private final float[] reference;
  private final float[] device;
  private final double sampleRate;
  private final double lowest;
  private final double top;
  private final List<SweepPlace> found;
  private final List<SweepPlace> whole;
  private final Silence silence;
  private final MainsHum deviceHum;
  private final MainsHum referenceHum;
  private final SilenceSpectrum referenceNoise;
  private final SilenceSpectrum deviceNoise;
  private final List<RepeatComparison> comparisons = new ArrayList<>();
  private final List<Double> noiseRatios = new ArrayList<>();

  private FrequencyCells cells;
  private int cellsLength;
  private LocalTransfer local;
  private Repeats repeats;
  private ReferenceComparison comparison;
  private int firstLength;
  private double[] hz;
  private SweepLaw law;
  private double delay;
  private double lawStep;
  private double humRatio = Double.NaN;
  private HarmonicLevels harmonics = HarmonicLevels.none();
  private int referenceImpulses;
  private int deviceImpulses;

  private SweepTransfer(
      float[] reference, float[] device, double sampleRate, OptionalDouble mainsHz, double lowest) {
    this.lowest = lowest;
    this.reference = reference;
    this.device = device;
    this.sampleRate = sampleRate;
    top = Math.min(HIGHEST_HZ, HIGHEST_SHARE * sampleRate);
    found = SweepFinder.find(reference, sampleRate);
    whole = whole(found, reference.length, sampleRate);
    silence = new Silence(found, reference.length, sampleRate);
    deviceHum = MainsHum.in(device, sampleRate, silence, mainsHz);
    referenceHum = MainsHum.at(reference, sampleRate, silence, deviceHum.hz());
    referenceNoise = new SilenceSpectrum(reference, silence, sampleRate);
    deviceNoise = new SilenceSpectrum(device, silence, sampleRate);
  }

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
    return measure(reference, device, sampleRate, mainsHz, LOWEST_HZ);
  }

  /**
   * Measures a capture from another frequency up.
   *
   * @param lowest first point, where the sweep reaches that low [Hz]
   */
  public static SweepMeasurement measure(
      float[] reference, float[] device, double sampleRate, OptionalDouble mainsHz, double lowest) {
    SweepTransfer transfer = new SweepTransfer(reference, device, sampleRate, mainsHz, lowest);
    for (SweepPlace sweep : transfer.whole) {
      transfer.take(sweep);
    }
    return transfer.result();
  }

  private void take(SweepPlace place) {
    SweepSegment segment =
        SweepSegment.of(
            reference,
            device,
            place,
            stopAfter(place),
            sampleRate,
            Math.min(top * MARGIN, 0.499 * sampleRate));
    if (cells == null || segment.transformLength != cellsLength) {
      cells = new FrequencyCells(segment, lowest / MARGIN);
      cellsLength = segment.transformLength;
    }
    LineRemoval lines = new LineRemoval(segment, deviceHum.hz());
    lines.subtractHeard(referenceHum, segment.referenceRe, segment.referenceIm, 0);
    lines.subtractHeard(deviceHum, segment.deviceRe, segment.deviceIm, 0);
    boolean humHeard = deviceHum.isHeard() || referenceHum.isHeard();
    boolean first = law == null;
    if (first) {
      law = segment.law(place);
      lawStep = segment.lawStep();
      delay = segment.delay(0.95 * top);
      if (Math.abs(delay) < NOTABLE_DELAY) {
        delay = 0;
      }
      comparison = new ReferenceComparison(segment);
      firstLength = segment.length;
    }
    double deviation = Double.NaN;
    if (!first && segment.length == firstLength) {
      deviation =
          comparison.deviation(
              segment,
              referenceNoise.isKnown() ? referenceNoise : null,
              1.2 * hz[0],
              0.95 * hz[hz.length - 1]);
      compareSamples(place, comparison.lag());
    }
    if (delay != 0) {
      segment.advanceDevice(delay);
    }
    cells.gather(segment);
    if (local == null) {
      hz = grid(cells, lowest, top);
      local = new LocalTransfer(hz, POINTS_PER_OCTAVE);
      repeats = new Repeats(hz);
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
      humRatio = extreme(humRatio, lines.strengthAgainst(deviceHum));
    }
    compareNoise(segment);
    if (first) {
      harmonics = DistortionSearch.in(segment, local, law, hz);
    }
    RepeatComparison later = repeats.add(local, deviation);
    if (later != null) {
      comparisons.add(later);
    }
  }

  /** First sample after {@code place} that belongs to the next sweep, or the end. */
  private int stopAfter(SweepPlace place) {
    int stop = reference.length;
    for (SweepPlace other : found) {
      if (other.start() > place.start()) {
        stop = Math.min(stop, other.start() - (int) (0.02 * sampleRate));
      }
    }
    return stop;
  }

  private void compareSamples(SweepPlace place, double lag) {
    if (Double.isNaN(lag)) {
      return;
    }
    int start = whole.get(0).start();
    int length = Math.min(whole.get(0).length(), place.length());
    int matching = start + (int) lag;
    if (matching < 0 || matching >= reference.length) {
      return;
    }
    referenceImpulses += ChannelExamination.betweenRepeats(reference, start, matching, length);
    deviceImpulses += ChannelExamination.betweenRepeats(device, start, matching, length);
  }

  /** Whichever ratio is farther from 1. */
  private static double extreme(double a, double b) {
    return Double.isNaN(a) || Math.abs(Math.log(b)) > Math.abs(Math.log(a)) ? b : a;
  }

  private void compareNoise(SweepSegment segment) {
    if (!referenceNoise.isKnown() || !deviceNoise.isKnown()) {
      return;
    }
    for (int i = 0; i < hz.length; i += 2) {
      if (hz[i] < NOISE_FROM) {
        continue;
      }
      double gain = local.re[i] * local.re[i] + local.im[i] * local.im[i];
      double expected = segment.length * (deviceNoise.at(hz[i]) + gain * referenceNoise.at(hz[i]));
      if (expected > 0) {
        noiseRatios.add(local.noisePower[i] / expected);
      }
    }
  }

  private SweepMeasurement result() {
    noiseRatios.sort(null);
    CaptureHealth health =
        new CaptureHealth(
            ChannelExamination.of(reference, found, silence, referenceHum, referenceImpulses),
            ChannelExamination.of(device, found, silence, deviceHum, deviceImpulses),
            comparisons,
            found.size(),
            found.size() - whole.size(),
            noiseRatios.isEmpty() ? Double.NaN : noiseRatios.get(noiseRatios.size() / 2),
            humRatio,
            law == null ? Double.NaN : lawStep);
    OptionalDouble mains =
        deviceHum.isHeard() ? OptionalDouble.of(deviceHum.hz()) : OptionalDouble.empty();
    if (repeats == null) {
      return new SweepMeasurement(
          sampleRate,
          new Response(new double[0], new double[0], new double[0], new double[0]),
          new double[0],
          Optional.empty(),
          List.of(),
          harmonics,
          mains,
          health);
    }
    return new SweepMeasurement(
        sampleRate,
        repeats.combined(delay, BIAS),
        repeats.coherence(),
        Optional.of(law),
        whole,
        harmonics,
        mains,
        health);
  }

  /** Sweeps as long as the longest, and not cut by the file's ends. */
  private static List<SweepPlace> whole(List<SweepPlace> found, int samples, double sampleRate) {
    int longest = 0;
    for (SweepPlace place : found) {
      longest = Math.max(longest, place.length());
    }
    int end = (int) (SILENT_END * sampleRate);
    List<SweepPlace> whole = new ArrayList<>();
    for (SweepPlace place : found) {
      if (place.length() >= 0.98 * longest
          && place.start() >= end
          && place.end() <= samples - end) {
        whole.add(place);
      }
    }
    return whole;
  }

  private static double[] grid(FrequencyCells cells, double lowest, double top) {
    int count = (int) Math.floor(POINTS_PER_OCTAVE * Math.log(top / lowest) / Math.log(2)) + 1;
    double[] hz = new double[count];
    double[] power = new double[count];
    double half = Math.log(2) / POINTS_PER_OCTAVE / 2;
    for (int i = 0; i < count; i++) {
      hz[i] = lowest * Math.pow(2, i / POINTS_PER_OCTAVE);
      double ln = Math.log(hz[i]);
      power[i] = cells.densityTimesFrequency(ln - half, ln + half);
    }
    double[] sorted = power.clone();
    Arrays.sort(sorted);
    double least = LEAST_POWER * sorted[(int) (USUAL_POWER * (count - 1))];
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
