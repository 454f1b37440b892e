package org.trebleproof.bench.slip;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.sweep.CaptureReading;
import org.trebleproof.signal.sweep.SweepLaw;

/**
 * Sample rates that a sweep's own length contradicts. A sweep is played over a round range in a
 * round time; read at the wrong rate it is neither, and differs from the other captures' by the
 * ratio of two usual rates.
 */
final class SweepRates {

  /** Usual sample rates [Hz]. */
  private static final double[] USUAL = {
    16000, 22050, 24000, 32000, 44100, 48000, 88200, 96000, 176400, 192000
  };

  /** Clocks of one nominal rate agree better than this, and so does what is read off a sweep. */
  private static final double SAME = 5e-4;

  /** Fades hide where exactly a sweep begins and ends; relative. */
  private static final double ENDS = 0.04;

  /** Ranges over which sweeps are played [Hz]; common practice, no source. */
  private static final double[] STARTS = {10, 15, 20, 25, 30, 40, 50, 80, 100, 200, 500, 1000};

  private static final double[] STOPS = {5000, 8000, 10000, 12000, 15000, 16000, 18000, 20000};

  /** Durations are multiples of this [s]. */
  private static final double ROUND = 0.5;

  private final Job job;

  private SweepRates(Job job) {
    this.job = job;
  }

  /** Recordings of one sweep, all with one rate in their headers. */
  private record Alike(double said, SweepLaw law, List<String> captures) {}

  /** What the lengths of the sweeps suggest; mostly nothing. */
  static List<Supposition> of(Job job, List<CaptureReading> readings) {
    return new SweepRates(job).suppositions(groups(readings));
  }

  private static List<Alike> groups(List<CaptureReading> readings) {
    List<Alike> groups = new ArrayList<>();
    for (CaptureReading r : readings) {
      if (!r.usable() || r.measurement().law().isEmpty()) {
        continue;
      }
      SweepLaw law = r.measurement().law().get();
      groups.stream()
          .filter(g -> g.said() == r.sampleRate() && near(g.law().rate(), law.rate(), SAME))
          .findFirst()
          .orElseGet(
              () -> {
                Alike fresh = new Alike(r.sampleRate(), law, new ArrayList<>());
                groups.add(fresh);
                return fresh;
              })
          .captures()
          .add(r.entry().id());
    }
    return groups;
  }

  private List<Supposition> suppositions(List<Alike> groups) {
    Map<String, Supposition> found = new LinkedHashMap<>();
    for (Alike one : groups) {
      if (round(one.law(), 1)) {
        continue;
      }
      for (double rate : USUAL) {
        double factor = rate / one.said();
        boolean another = !near(factor, 1, SAME);
        boolean likeAnother =
            groups.stream()
                .anyMatch(
                    g ->
                        g != one
                            && near(one.law().rate() / factor, g.law().rate(), SAME)
                            && near(one.law().startHz() * factor, g.law().startHz(), ENDS));
        boolean alone = groups.size() == 1 && !usualRange(one.law()) && round(one.law(), factor);
        if (another && (likeAnother || alone)) {
          found.put(
              one.captures() + " " + rate,
              Suppositions.rate(job, one.captures(), one.said(), rate));
        }
      }
    }
    return List.copyOf(found.values());
  }

  /**
   * Whether a sweep, its frequencies taken by a factor higher, covers a round range in round time.
   */
  private static boolean round(SweepLaw law, double factor) {
    for (double start : STARTS) {
      for (double stop : STOPS) {
        double seconds = law.rate() / factor * Math.log(stop / start);
        double off = Math.abs(seconds - ROUND * Math.max(1, Math.round(seconds / ROUND)));
        if (near(law.startHz() * factor, start, ENDS)
            && near(law.endHz() * factor, stop, ENDS)
            && off < SAME * seconds) {
          return true;
        }
      }
    }
    return false;
  }

  /**
   * Whether a sweep covers a usual range as it is. A sweep over one is suspected for no odd length:
   * one in a hundred of odd lengths is round at some other rate by chance.
   */
  private static boolean usualRange(SweepLaw law) {
    return Arrays.stream(STARTS).anyMatch(f -> near(law.startHz(), f, ENDS))
        && Arrays.stream(STOPS).anyMatch(f -> near(law.endHz(), f, ENDS));
  }

  private static boolean near(double a, double b, double within) {
    return Math.abs(Math.log(a / b)) < within;
  }
}
