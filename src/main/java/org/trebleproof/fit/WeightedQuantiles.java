package org.trebleproof.fit;

import java.util.Comparator;
import java.util.List;

/** Quantiles of weighed values, each value at the middle of its own weight. */
public final class WeightedQuantiles {

  private final List<Value> sorted;
  private final double[] place;

  /**
   * One value.
   *
   * @param value any number
   * @param weight positive
   */
  public record Value(double value, double weight) {}

  /**
   * @param values at least one
   */
  public WeightedQuantiles(List<Value> values) {
    this.sorted = values.stream().sorted(Comparator.comparingDouble(Value::value)).toList();
    double all = sorted.stream().mapToDouble(Value::weight).sum();
    this.place = new double[sorted.size()];
    double below = 0;
    for (int i = 0; i < place.length; i++) {
      double weight = sorted.get(i).weight;
      place[i] = (below + weight / 2) / all;
      below += weight;
    }
  }

  /** The value that this share of all weight lies below, between values in proportion. */
  public double at(double share) {
    int above = 0;
    while (above < place.length && place[above] < share) {
      above++;
    }
    if (above == 0) {
      return sorted.get(0).value;
    }
    if (above == place.length) {
      return sorted.get(place.length - 1).value;
    }
    double part = (share - place[above - 1]) / (place[above] - place[above - 1]);
    double low = sorted.get(above - 1).value;
    return low + part * (sorted.get(above).value - low);
  }
}
