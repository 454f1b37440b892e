package org.trebleproof.bench.mod;

/**
 * The k-th smallest of many values without sorting them all: Hoare's selection (C. A. R. Hoare,
 * Communications of the ACM 4, 1961, algorithm 65, from memory).
 */
final class OrderStatistic {
  private OrderStatistic() {}

  /**
   * Finds it, and leaves the values in another order.
   *
   * @param values at least one
   * @param k from 0
   */
  static double of(double[] values, int k) {
    int low = 0;
    int high = values.length - 1;
    while (low < high) {
      double pivot = median(values[low], values[(low + high) >>> 1], values[high]);
      int i = low;
      int j = high;
      while (i <= j) {
        while (values[i] < pivot) {
          i++;
        }
        while (values[j] > pivot) {
          j--;
        }
        if (i <= j) {
          double held = values[i];
          values[i++] = values[j];
          values[j--] = held;
        }
      }
      if (k <= j) {
        high = j;
      } else if (k >= i) {
        low = i;
      } else {
        return values[k];
      }
    }
    return values[k];
  }

  private static double median(double a, double b, double c) {
    return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
  }
}
