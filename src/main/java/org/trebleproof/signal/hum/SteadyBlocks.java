package org.trebleproof.signal.hum;

import java.util.Arrays;
import org.trebleproof.signal.OrderStatistics;

/**
 * Which blocks of a recording are steady, so that a string brushed by accident, a knock on the body
 * or the rustle of a hand do not count as hum.
 *
 * <p>A block is left out when the level in any of some octave bands stands above that band's median
 * by more than the scatter of the recording explains. Where more than {@link #MOST_LEFT_OUT} of the
 * recording would go, the sound is not an accident, and the quieter part is kept.
 */
public final class SteadyBlocks {

  /** Largest share of a recording that is left out. */
  public static final double MOST_LEFT_OUT = 0.6;

  private static final double[] EDGES = {30, 90, 180, 355, 710, 1400, 2800, 5600, 11000, 20000};

  /** Slow changes of the mains' harmonics stay below this [dB]. */
  private static final double LEAST_RISE = 2.5;

  private static final double SCATTERS = 6;

  private SteadyBlocks() {}

  /** For each block, whether it is kept. */
  public static boolean[] of(BlockSpectra spectra) {
    int blocks = spectra.blocks();
    double[] excess = new double[blocks];
    for (int band = 0; band + 1 < EDGES.length; band++) {
      double[] level = new double[blocks];
      for (int block = 0; block < blocks; block++) {
        double power = spectra.between(block, EDGES[band], EDGES[band + 1]);
        level[block] = 10 * Math.log10(power + Double.MIN_NORMAL);
      }
      double median = OrderStatistics.median(level);
      double[] deviation = new double[blocks];
      for (int block = 0; block < blocks; block++) {
        deviation[block] = Math.abs(level[block] - median);
      }
      // 1.4826: standard deviation of a normal distribution over its median absolute deviation
      double limit = Math.max(LEAST_RISE, SCATTERS * 1.4826 * OrderStatistics.median(deviation));
      for (int block = 0; block < blocks; block++) {
        excess[block] = Math.max(excess[block], (level[block] - median) / limit);
      }
    }
    boolean[] keep = new boolean[blocks];
    int left = 0;
    for (int block = 0; block < blocks; block++) {
      // blocks overlap: the neighbours of a transient carry its beginning and its tail
      double here = excess[block];
      double before = block > 0 ? excess[block - 1] : 0;
      double after = block + 1 < blocks ? excess[block + 1] : 0;
      keep[block] = Math.max(here, Math.max(before, after)) <= 1;
      left += keep[block] ? 0 : 1;
    }
    return left <= MOST_LEFT_OUT * blocks ? keep : quietest(excess);
  }

  private static boolean[] quietest(double[] excess) {
    double[] sorted = excess.clone();
    Arrays.sort(sorted);
    double limit = sorted[(int) Math.ceil((1 - MOST_LEFT_OUT) * (sorted.length - 1))];
    boolean[] keep = new boolean[excess.length];
    for (int block = 0; block < keep.length; block++) {
      keep[block] = excess[block] <= limit;
    }
    return keep;
  }
}
