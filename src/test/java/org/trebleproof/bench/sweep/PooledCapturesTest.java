package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.MadeUpJob;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Response;

/** A mean says as much as its captures, and no more. */
final class PooledCapturesTest {

  private static final long SEED = 20261130;
  private static final int REPEATS = 16;

  private final Random chance = new Random(SEED);
  private final Map<String, Response> measured = new LinkedHashMap<>();

  private Job repeated(MadeUpJob made, double noise, double[] gains) {
    List<CaptureEntry> captures =
        made.job().captures().stream()
            .limit(1)
            .flatMap(
                c ->
                    java.util.stream.IntStream.range(0, REPEATS)
                        .mapToObj(
                            i ->
                                new CaptureEntry(
                                    c.id() + " " + i, c.file(), c.setup(), c.across())))
            .toList();
    Response first = made.measured().values().iterator().next();
    for (int i = 0; i < REPEATS; i++) {
      measured.put(captures.get(i).id(), noisy(first, noise, gains[i % gains.length]));
    }
    return made.job().withCaptures(captures);
  }

  private Response noisy(Response r, double relative, double gain) {
    double[] re = new double[r.size()];
    double[] im = new double[r.size()];
    double[] sd = new double[r.size()];
    for (int i = 0; i < r.size(); i++) {
      sd[i] = gain * relative * r.magnitude(i);
      re[i] = gain * r.re()[i] + sd[i] * chance.nextGaussian();
      im[i] = gain * r.im()[i] + sd[i] * chance.nextGaussian();
      sd[i] = Math.hypot(sd[i], RecordingPath.POINT * gain * r.magnitude(i));
    }
    return new Response(r.hz(), re, im, sd);
  }

  private static MadeUpJob series() {
    MadeUpJob made = MadeUpJob.singleCoil(61);
    made.series(100e3, 1.004, 5e-9).swapParts();
    return made.sweep("before", "before", 1);
  }

  private static MadeUpJob exciter() {
    return MadeUpJob.singleCoil(62).exciter(0.05, 4e-6, 0.3e-6).swapParts().sweptSwap(1.15);
  }

  @Test
  void repeatedCapturesBecomeTheirMean() {
    MadeUpJob made = series();
    double noise = 1e-4;
    PooledCaptures pooled = PooledCaptures.of(repeated(made, noise, new double[] {1}), measured);
    assertEquals(1, pooled.job().captures().size(), "seed " + SEED);
    Response truth = made.measured().values().iterator().next();
    Response mean = pooled.measured().values().iterator().next();
    double sum = 0;
    for (int i = 0; i < truth.size(); i++) {
      // The mean of n has a sqrt(n)-th of the noise, and the whole of what the path leaves.
      double expected = Math.hypot(noise / Math.sqrt(REPEATS), RecordingPath.POINT);
      assertEquals(expected, mean.sd()[i] / mean.magnitude(i), 1e-3 * expected);
      sum +=
          (Math.pow(mean.re()[i] - truth.re()[i], 2) + Math.pow(mean.im()[i] - truth.im()[i], 2))
              / Math.pow(mean.sd()[i], 2);
    }
    double reduced = sum / (2 * truth.size());
    // Chi-square of some hundred numbers over their count: within four of its deviations.
    assertEquals(1, reduced, 4 * Math.sqrt(2.0 / (2 * truth.size())), "seed " + SEED);
  }

  @Test
  void underAnExciterEachHasItsGain() {
    double[] gains = {1, 1.002, 0.997};
    PooledCaptures pooled = PooledCaptures.of(repeated(exciter(), 1e-4, gains), measured);
    assertEquals(1, pooled.job().captures().size(), "seed " + SEED);
    int i = 0;
    for (PooledCaptures.Member member : pooled.groups().values()) {
      // The weighted mean of hundreds of points with noise of 1e-4.
      assertEquals(gains[i++ % gains.length], member.gain(), 3e-5, "seed " + SEED);
    }
  }

  @Test
  void captureThatIsNotAlikeStaysApart() {
    Job job = repeated(series(), 1e-4, new double[] {1});
    String odd = job.captures().get(3).id();
    Response other = measured.get(odd).times(1.003);
    measured.put(odd, other);
    PooledCaptures pooled = PooledCaptures.of(job, measured);
    assertEquals(2, pooled.job().captures().size(), "seed " + SEED);
    assertEquals(odd, pooled.groups().get(odd).first());
    assertSame(other, pooled.measured().get(odd));
  }

  @Test
  void differentSetupsAreNeverPooled() {
    MadeUpJob made = series().sweep("after", "after", 1);
    PooledCaptures pooled = PooledCaptures.of(made.job(), made.measured());
    assertEquals(made.job().captures(), pooled.job().captures());
    assertTrue(pooled.groups().values().stream().allMatch(m -> m.gain() == 1));
    made.measured().forEach((id, r) -> assertSame(r, pooled.measured().get(id)));
  }
}
