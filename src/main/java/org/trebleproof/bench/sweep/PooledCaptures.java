package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Response;

/**
 * Captures of one setup with the same parts across, averaged: whatever model is fitted says the
 * same of all of them, so their weighted mean says as much as they do one by one (a sufficient
 * statistic), and a fit takes no longer for a hundred of them. Captures that differ by more than
 * their noise stay apart, for the checks to see. Under an exciter each has a gain of its own.
 *
 * @param job the job with the first capture of every group
 * @param measured their means, by the first one's id
 * @param groups for every capture, the first of its group and its gain over the group's
 */
public record PooledCaptures(Job job, Map<String, Response> measured, Map<String, Member> groups) {

  /** Squared differences over their variances, per number, above which captures are not alike. */
  private static final double UNLIKE = 2;

  /**
   * A capture's place.
   *
   * @param first id of the first capture of its group
   * @param gain its gain over that of the group
   */
  public record Member(String first, double gain) {}

  /** The captures of a job, pooled. */
  public static PooledCaptures of(Job job, Map<String, Response> measured) {
    List<Pool> pools = new ArrayList<>();
    Map<String, Member> groups = new LinkedHashMap<>();
    boolean gains = job.fixture() instanceof Fixture.Exciter;
    for (CaptureEntry capture : job.captures()) {
      Response response = measured.get(capture.id());
      if (response == null) {
        continue;
      }
      Pool pool =
          pools.stream()
              .filter(p -> p.takes(capture, response, gains))
              .findFirst()
              .orElseGet(() -> opened(pools, capture, response));
      groups.put(capture.id(), new Member(pool.first.id(), pool.add(response, gains)));
    }
    Map<String, Response> means = new LinkedHashMap<>();
    pools.forEach(p -> means.put(p.first.id(), p.mean()));
    return new PooledCaptures(
        job.withCaptures(pools.stream().map(p -> p.first).toList()), means, groups);
  }

  private static Pool opened(List<Pool> pools, CaptureEntry capture, Response response) {
    pools.add(new Pool(capture, response));
    return pools.get(pools.size() - 1);
  }

  /** Sums over captures that were found alike. */
  private static final class Pool {
    private final CaptureEntry first;
    private final Response like;
    private final double[] re;
    private final double[] im;
    private final double[] weight;
    private int count;

    Pool(CaptureEntry first, Response like) {
      this.first = first;
      this.like = like;
      re = new double[like.size()];
      im = new double[like.size()];
      weight = new double[like.size()];
    }

    boolean takes(CaptureEntry capture, Response r, boolean gains) {
      if (!capture.setup().equals(first.setup())
          || !capture.across().equals(first.across())
          || !Arrays.equals(r.hz(), like.hz())) {
        return false;
      }
      double gain = gains ? gain(r) : 1;
      double sum = 0;
      for (int i = 0; i < r.size(); i++) {
        double dRe = r.re()[i] - gain * like.re()[i];
        double dIm = r.im()[i] - gain * like.im()[i];
        double variance = square(r.sd()[i]) + square(gain * like.sd()[i]);
        sum += (dRe * dRe + dIm * dIm) / variance;
      }
      return sum < UNLIKE * 2 * r.size();
    }

    /** Real gain over the first capture, by weighted least squares. */
    private double gain(Response r) {
      double product = 0;
      double power = 0;
      for (int i = 0; i < r.size(); i++) {
        double w = 1 / (square(r.sd()[i]) + square(like.sd()[i]));
        product += w * (r.re()[i] * like.re()[i] + r.im()[i] * like.im()[i]);
        power += w * (square(like.re()[i]) + square(like.im()[i]));
      }
      return product / power;
    }

    /** Adds a capture; its gain over the first. */
    double add(Response r, boolean gains) {
      double gain = gains ? gain(r) : 1;
      for (int i = 0; i < r.size(); i++) {
        double w = square(gain) / randomVariance(r, i);
        re[i] += w * r.re()[i] / gain;
        im[i] += w * r.im()[i] / gain;
        weight[i] += w;
      }
      count++;
      return gain;
    }

    /** What the recording path leaves is the same in every capture and no mean lessens it. */
    private static double randomVariance(Response r, int i) {
      double path = RecordingPath.POINT * r.magnitude(i);
      return Math.max(square(r.sd()[i]) - square(path), square(path) * ALMOST_NONE);
    }

    Response mean() {
      if (count == 1) {
        return like;
      }
      double[] meanRe = new double[re.length];
      double[] meanIm = new double[re.length];
      double[] sd = new double[re.length];
      for (int i = 0; i < re.length; i++) {
        meanRe[i] = re[i] / weight[i];
        meanIm[i] = im[i] / weight[i];
        double path = RecordingPath.POINT * Math.hypot(meanRe[i], meanIm[i]);
        sd[i] = Math.hypot(path, 1 / Math.sqrt(weight[i]));
      }
      return new Response(like.hz(), meanRe, meanIm, sd);
    }
  }

  /** Noise smaller than this share of what the path leaves makes no difference. */
  private static final double ALMOST_NONE = 1e-4;

  private static double square(double v) {
    return v * v;
  }
}
