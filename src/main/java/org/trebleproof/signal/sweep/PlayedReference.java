package org.trebleproof.signal.sweep;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.trebleproof.signal.SincInterpolation;

/**
 * The reference channel that a recording of one channel lacks: what was played, put where and at
 * the speed at which it arrived.
 *
 * @param reference as long as the recording
 * @param timing when the sweeps arrived
 * @param timingSd of the phase at a sweep's end that the clock offset's uncertainty leaves [s]
 */
public record PlayedReference(float[] reference, SweepTiming timing, double timingSd) {

  /** Silence kept around a sweep cut out of what was played [s]. */
  private static final double MARGIN = 0.02;

  /**
   * Aligns what was played with what was recorded.
   *
   * @param recorded the one channel
   * @param recordedRate nominal [Hz]
   * @param played equal sweeps with silence around each
   * @param playedRate nominal [Hz]
   * @return empty where the sweeps are not all found in the recording
   * @throws IllegalArgumentException if {@code played} holds no sweep
   */
  public static Optional<PlayedReference> of(
      float[] recorded, double recordedRate, float[] played, double playedRate) {
    List<SweepPlace> sweeps = SweepFinder.find(played, playedRate);
    if (sweeps.isEmpty()) {
      throw new IllegalArgumentException("no sweep was played");
    }
    int margin = (int) (MARGIN * playedRate);
    int start = Math.max(0, sweeps.get(0).start() - margin);
    int length = Math.min(played.length, sweeps.get(0).end() + margin) - start;
    double[] sweep = resampled(played, start, length, playedRate, recordedRate);
    double period = period(played, playedRate, sweeps, start, length);
    Optional<SweepTiming> timing =
        SweepTiming.of(recorded, recordedRate, sweep, sweeps.size(), period);
    return timing.map(t -> aligned(recorded, recordedRate, played, playedRate, start, length, t));
  }

  /** Sweeps in what was played. */
  public static int sweepsIn(float[] played, double playedRate) {
    return SweepFinder.find(played, playedRate).size();
  }

  private static double period(
      float[] played, double rate, List<SweepPlace> sweeps, int start, int length) {
    int n = sweeps.size();
    if (n == 1) {
      return length / rate;
    }
    double rough = (sweeps.get(n - 1).start() - sweeps.get(0).start()) / (n - 1) / rate;
    double[] one = new double[length];
    for (int i = 0; i < length; i++) {
      one[i] = played[start + i];
    }
    return SweepTiming.of(played, rate, one, n, rough)
        .map(t -> rough * (1 + t.clockOffset()))
        .orElse(rough);
  }

  private static double[] resampled(float[] x, int start, int length, double from, double to) {
    if (from == to) {
      double[] y = new double[length];
      for (int i = 0; i < length; i++) {
        y[i] = x[start + i];
      }
      return y;
    }
    SincInterpolation between = new SincInterpolation(x);
    double[] y = new double[(int) (length * to / from)];
    for (int i = 0; i < y.length; i++) {
      y[i] = between.at(start + i * from / to);
    }
    return y;
  }

  private static PlayedReference aligned(
      float[] recorded,
      double recordedRate,
      float[] played,
      double playedRate,
      int start,
      int length,
      SweepTiming timing) {
    double offset = Double.isNaN(timing.clockOffset()) ? 0 : timing.clockOffset();
    int from = (int) Math.max(0, timing.latency() * recordedRate - MARGIN * recordedRate);
    int stretch = (int) (length * recordedRate / playedRate + 4 * MARGIN * recordedRate);
    float[] first = new float[recorded.length];
    Arrival arrival = new Arrival(played, playedRate, start, recordedRate, offset);
    arrival.fill(first, timing.latency(), from, Math.min(first.length, from + stretch));
    double late =
        timing.latency() + SweepTiming.delay(first, recorded, recordedRate, from, stretch)[0];
    float[] reference = new float[recorded.length];
    arrival.fill(reference, late, 0, reference.length);
    double sd =
        Double.isNaN(timing.clockOffsetSd()) ? 0 : timing.clockOffsetSd() * length / playedRate;
    return new PlayedReference(
        reference,
        new SweepTiming(late, timing.clockOffset(), timing.clockOffsetSd(), timing.lateness()),
        sd);
  }

  /** What was played, as it arrives by the recorder's clock. */
  private record Arrival(
      SincInterpolation sound, double playedRate, int start, double recordedRate, double offset) {
    public Arrival(
        float[] played, double playedRate, int start, double recordedRate, double offset) {
      this(new SincInterpolation(played), playedRate, start, recordedRate, offset);
    }

    void fill(float[] reference, double latency, int from, int to) {
      double step = playedRate / recordedRate / (1 + offset);
      Arrays.fill(reference, from, to, 0f);
      for (int n = from; n < to; n++) {
        reference[n] = (float) sound.at(start + (n - latency * recordedRate) * step);
      }
    }
  }
}
