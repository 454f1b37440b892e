package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;

/**
 * The small relaxations that may stand beside a coil model: nine, their times a factor of three
 * apart, from the top of the audible range down to the lowest frequencies measured. One relaxation
 * spreads over more than a decade, so closer ones would say the same twice.
 */
final class Departures {

  private static final double SHORTEST = 1e-6;
  private static final double RATIO = 3;
  private static final int COUNT = 9;

  private Departures() {}

  /** The factors' parameters; {@code coil} tells the coils of a pickup apart. */
  static List<CoilParameter> parameters(String coil) {
    List<CoilParameter> all = new ArrayList<>();
    for (int n = 1; n <= COUNT; n++) {
      all.add(new CoilParameter(CoilParameter.Role.DEPARTURE, coil + "departure" + n));
    }
    return all;
  }

  /** The element, beside the inductance of this name. */
  static Inductance about(String prefix, String coil, String inductance) {
    List<Double> times = new ArrayList<>();
    double time = SHORTEST;
    for (int n = 0; n < COUNT; n++) {
      times.add(time);
      time *= RATIO;
    }
    return new Inductance.Departure(
        inductance, parameters(coil).stream().map(p -> p.in(prefix)).toList(), times);
  }

  /** What the departures add to the inductance at low frequency, as a share of that beside them. */
  static double lowFrequencyShare(String prefix, String coil, List<String> names, double[] values) {
    double share = 0;
    for (CoilParameter p : parameters(coil)) {
      share += values[names.indexOf(p.in(prefix))] - 1;
    }
    return share;
  }
}
