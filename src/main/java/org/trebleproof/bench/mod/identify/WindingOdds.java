package org.trebleproof.bench.mod.identify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/** Wires and turns that would make up a coil's resistance, each with its odds. */
final class WindingOdds {

  /** Gauges and how often each is met in guitar pickups; common practice, no source. */
  private static final int[] GAUGES = {41, 42, 43, 44};

  private static final double[] MET = {0.05, 0.6, 0.27, 0.08};

  /** Average turn [m]: 105 mm on a narrow bobbin, 180 mm on a wide one, as a 95 % interval. */
  private static final double MEAN_TURN = 0.1375;

  private static final double MEAN_TURN_TOLERANCE = 0.27;
  private static final double MEASURED_TURN_TOLERANCE = 0.02;

  /**
   * Resistance of fine enamelled wire per metre, as a 95 % interval (IEC 60317-0-1; from memory).
   */
  private static final double WIRE_TOLERANCE = 0.1;

  /** How widely makers' turns lie about what is usual in a family, as a logarithm. */
  private static final double MAKERS = 0.2;

  private static final double LEAST_ODDS = 0.01;

  private final double turn;
  private final double others;

  /**
   * @param meanTurn length of the average turn [m], if somebody measured it
   */
  WindingOdds(Optional<Double> meanTurn) {
    turn = meanTurn.orElse(MEAN_TURN);
    others =
        Math.hypot(
                WIRE_TOLERANCE,
                meanTurn.isPresent() ? MEASURED_TURN_TOLERANCE : MEAN_TURN_TOLERANCE)
            / Estimate.NORMAL_95;
  }

  /** The likeliest first; odds add up to 1 but for what is left out. */
  List<CoilIdentity.Build> builds(Estimate ohm, List<CoilIdentity.Likely> families) {
    double own = Math.log(ohm.high() / ohm.value()) / Estimate.NORMAL_95;
    double sd = Math.hypot(own, others);
    double[] odds = new double[GAUGES.length];
    double sum = 0;
    for (int g = 0; g < GAUGES.length; g++) {
      double turns = new WireGauge(GAUGES[g]).turns(ohm.value(), turn);
      for (CoilIdentity.Likely likely : families) {
        double off = Math.log(turns / likely.family().turns());
        odds[g] +=
            likely.probability() * MET[g] * CoilFamily.density(off, 0, Math.hypot(MAKERS, sd));
      }
      sum += odds[g];
    }
    List<CoilIdentity.Build> builds = new ArrayList<>();
    for (int g = 0; g < GAUGES.length; g++) {
      if (odds[g] >= LEAST_ODDS * sum) {
        WireGauge gauge = new WireGauge(GAUGES[g]);
        Estimate turns =
            Estimate.logNormal(gauge.turns(ohm.value(), turn), sd, Unit.RATIO, Known.DERIVED);
        builds.add(new CoilIdentity.Build(gauge, turns, odds[g] / sum));
      }
    }
    builds.sort(Comparator.comparingDouble(b -> -b.probability()));
    return builds;
  }
}
