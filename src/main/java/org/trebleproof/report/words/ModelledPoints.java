package org.trebleproof.report.words;

import java.util.Arrays;
import org.trebleproof.bench.answer.FitResult.CaptureFit;
import org.trebleproof.quantity.Response;

/**
 * Which modelled point belongs to which measured one. A fit may leave out points that say nothing,
 * so the modelled response can have fewer of them.
 */
public final class ModelledPoints {

  /** Frequencies nearer than this share of themselves are the same point. */
  private static final double SAME = 1e-6;

  private ModelledPoints() {}

  /** Index of the modelled value at each measured frequency; -1 where there is none. */
  public static int[] of(CaptureFit capture) {
    int[] index = new int[capture.measured().size()];
    Arrays.fill(index, -1);
    if (capture.modelled().isEmpty()) {
      return index;
    }
    Response modelled = capture.modelled().get();
    int m = 0;
    for (int i = 0; i < index.length; i++) {
      double hz = capture.measured().hz()[i];
      while (m < modelled.size() && modelled.hz()[m] < hz * (1 - SAME)) {
        m++;
      }
      if (m < modelled.size() && modelled.hz()[m] <= hz * (1 + SAME)) {
        index[i] = m;
      }
    }
    return index;
  }
}
