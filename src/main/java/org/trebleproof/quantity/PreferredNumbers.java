package org.trebleproof.quantity;

/**
 * Preferred values of resistors and capacitors. Source: IEC 60063; the series up to E24 are its
 * lists, E48 to E192 follow its formula, ten to the power i/N rounded to two decimals, with 9.20
 * the one exception in E192.
 *
 * <p>Pots are not made in these series (250k, 500k): never round a pot to one of them.
 */
public enum PreferredNumbers {
  E3(3),
  E6(6),
  E12(12),
  E24(24),
  E48(48),
  E96(96),
  E192(192);

  private final double[] decade;

  PreferredNumbers(int size) {
    decade = new double[size];
    for (int i = 0; i < size; i++) {
      if (size <= 24) {
        decade[i] = Listed.E24[i * (24 / size)];
      } else {
        double rounded = Math.round(100 * Math.pow(10, (double) i / size)) / 100.0;
        decade[i] = rounded == 9.19 ? 9.20 : rounded;
      }
    }
  }

  /** Initialised apart, since the constructors above need it. */
  private static final class Listed {
    static final double[] E24 = {
      1.0, 1.1, 1.2, 1.3, 1.5, 1.6, 1.8, 2.0, 2.2, 2.4, 2.7, 3.0, 3.3, 3.6, 3.9, 4.3, 4.7, 5.1, 5.6,
      6.2, 6.8, 7.5, 8.2, 9.1
    };
  }

  /** The values of one decade, from 1 to below 10. */
  public double[] decade() {
    return decade.clone();
  }

  /** The value of the series nearest to {@code value} in ratio; {@code value} is positive. */
  public double nearest(double value) {
    if (!(value > 0) || Double.isInfinite(value)) {
      throw new IllegalArgumentException("a preferred value is positive, not " + value);
    }
    int exponent = (int) Math.floor(Math.log10(value));
    double best = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int e = exponent - 1; e <= exponent + 1; e++) {
      for (double step : decade) {
        double candidate = Double.parseDouble(step + "e" + e);
        double distance = Math.abs(Math.log(candidate / value));
        if (distance < least) {
          least = distance;
          best = candidate;
        }
      }
    }
    return best;
  }
}
