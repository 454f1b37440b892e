package org.trebleproof.shelf.sheet;

import java.util.Map;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * A coil unlike its siblings, and the one cause that explains it best. Of a winding of N turns on
 * one bobbin resistance goes as N and inductance as N^2; another wire changes the resistance alone,
 * another magnet or core the inductance alone.
 *
 * @param cause of it
 * @param size of the cause as a ratio to the siblings: of the turns, of the resistance, of the
 *     inductance, of the capacitance; empty where it has none
 * @param distance from the siblings, in standard deviations
 */
public record OddCoil(Cause cause, Optional<Estimate> size, double distance) {

  /** What may make a coil strange. */
  public enum Cause {
    BROKEN,
    /** It was not measured well enough to be held against others. */
    UNMEASURED,
    TURNS,
    WIRE,
    CORE,
    CAPACITANCE,
    LOSS,
    /** Turns and something else. */
    SEVERAL
  }

  /** So many values of a coil are looked at. */
  static final int LOOKED_AT = 4;

  /** What a single cause may leave over, as chi-square of one degree (99 %). */
  private static final double EXPLAINED = 6.63;

  private static final double BROKEN_FIRST = 1e6;
  private static final double UNMEASURED_NEXT = 1e5;

  static Optional<OddCoil> of(ShelvedCoil coil, Map<CoilValue, RobustSpread> siblings) {
    if (coil.state().broken()) {
      return Optional.of(new OddCoil(Cause.BROKEN, Optional.empty(), BROKEN_FIRST));
    }
    if (coil.state() != CoilState.GOOD) {
      return Optional.of(new OddCoil(Cause.UNMEASURED, Optional.empty(), UNMEASURED_NEXT));
    }
    double[] r = off(coil, CoilValue.RESISTANCE_AT_20, siblings);
    double[] l = off(coil, CoilValue.INDUCTANCE, siblings);
    double[] c = off(coil, CoilValue.CAPACITANCE, siblings);
    double[] loss = off(coil, CoilValue.LOSS, siblings);
    if (isOdd(r) || isOdd(l)) {
      return Optional.of(wound(r, l, Math.max(Math.abs(r[0]) / r[1], Math.abs(l[0]) / l[1])));
    }
    if (isOdd(loss)) {
      return Optional.of(one(Cause.LOSS, loss));
    }
    return isOdd(c) ? Optional.of(one(Cause.CAPACITANCE, c)) : Optional.empty();
  }

  private static boolean isOdd(double[] off) {
    return Math.abs(off[0]) / off[1] > off[2];
  }

  /** How far the logarithm is off, the standard deviation of that, and how many are too many. */
  private static double[] off(
      ShelvedCoil coil, CoilValue value, Map<CoilValue, RobustSpread> siblings) {
    RobustSpread s = siblings.get(value);
    Optional<Estimate> e = coil.value(value);
    if (s == null || e.isEmpty()) {
      return new double[] {0, 1, Double.POSITIVE_INFINITY};
    }
    double own = BatchSheet.uncertainty(value, e.get());
    return new double[] {
      BatchSheet.scaled(value, e.get().value()) - s.median(),
      Math.max(1e-6, Math.sqrt(own * own + s.spread() * s.spread() + s.error() * s.error())),
      s.limit()
    };
  }

  private static OddCoil one(Cause cause, double[] off) {
    return new OddCoil(cause, size(off[0], off[1]), Math.abs(off[0]) / off[1]);
  }

  private static Optional<Estimate> size(double logarithm, double sd) {
    return Optional.of(Estimate.logNormal(Math.exp(logarithm), sd, Unit.RATIO, Known.DERIVED));
  }

  /** The single cause that leaves least over. */
  private static OddCoil wound(double[] r, double[] l, double distance) {
    double wr = 1 / (r[1] * r[1]);
    double wl = 1 / (l[1] * l[1]);
    // ln R = n, ln L = 2 n
    double n = (wr * r[0] + 2 * wl * l[0]) / (wr + 4 * wl);
    double turns = wr * Math.pow(r[0] - n, 2) + wl * Math.pow(l[0] - 2 * n, 2);
    double wire = wl * l[0] * l[0];
    double core = wr * r[0] * r[0];
    double least = Math.min(turns, Math.min(wire, core));
    if (least > EXPLAINED) {
      return new OddCoil(Cause.SEVERAL, Optional.empty(), distance);
    }
    if (least == turns) {
      return new OddCoil(Cause.TURNS, size(n, Math.sqrt(1 / (wr + 4 * wl))), distance);
    }
    return least == wire
        ? new OddCoil(Cause.WIRE, size(r[0], r[1]), distance)
        : new OddCoil(Cause.CORE, size(l[0], l[1]), distance);
  }
}
