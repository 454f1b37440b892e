package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;

/**
 * The small relaxations that may stand beside a coil model, their times from the top of the audible
 * range down to the lowest frequencies measured.
 *
 * <p>A factor of two apart, a hundredth of the inductance that relaxes at a time between theirs is
 * met to one or two millionths of the inductance, which is what good recordings resolve; a factor
 * of three apart, to some hundred-thousandths only, by terms that grow large and cancel (least
 * squares over 20 Hz to 20 kHz). What two coils have each to themselves shows only in their
 * differences, and a factor of three does there.
 */
final class Departures {

  private static final double SHORTEST = 1e-6;
  private static final double LONGEST = 8.2e-3;
  private static final double FINE = 2;
  private static final double COARSE = 3;

  private Departures() {}

  /** The factors' parameters beside a pickup's only coil. */
  static List<CoilParameter> parameters() {
    return named("", COARSE);
  }

  /** The same beside one coil of two. */
  static List<CoilParameter> ofOne(String coil) {
    return named(coil, COARSE);
  }

  /** The same of the flux that both coils share. */
  static List<CoilParameter> ofBoth(String name) {
    return named(name, FINE);
  }

  private static List<CoilParameter> named(String name, double ratio) {
    List<CoilParameter> all = new ArrayList<>();
    for (int n = 1; n <= times(ratio).size(); n++) {
      all.add(new CoilParameter(CoilParameter.Role.DEPARTURE, name + "departure" + n));
    }
    return all;
  }

  private static List<Double> times(double ratio) {
    List<Double> times = new ArrayList<>();
    for (double time = SHORTEST; time <= LONGEST; time *= ratio) {
      times.add(time);
    }
    return times;
  }

  /** The element beside the inductance of a pickup's only coil. */
  static Inductance about(String prefix, String inductance) {
    return new Inductance.Departure(inductance, in(prefix, parameters()), times(COARSE));
  }

  /** The same beside one coil of two. */
  static Inductance aboutOne(String prefix, String coil, String inductance) {
    return new Inductance.Departure(inductance, in(prefix, ofOne(coil)), times(COARSE));
  }

  /** The same of the flux that both coils share. */
  static Element.CommonDeparture aboutBoth(String prefix, String name) {
    return new Element.CommonDeparture(in(prefix, ofBoth(name)), times(FINE));
  }

  private static List<String> in(String prefix, List<CoilParameter> factors) {
    return factors.stream().map(p -> p.in(prefix)).toList();
  }

  /** What departures add to the inductance at low frequency, as a share of that beside them. */
  static double lowFrequencyShare(
      String prefix, List<CoilParameter> factors, List<String> names, double[] values) {
    double share = 0;
    for (CoilParameter p : factors) {
      share += values[names.indexOf(p.in(prefix))] - 1;
    }
    return share;
  }
}
