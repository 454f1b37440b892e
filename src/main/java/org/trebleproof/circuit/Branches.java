package org.trebleproof.circuit;

import java.util.function.ToIntFunction;

/** An element made ready for analysis: its branches, and its parameters as slots. */
abstract class Branches {
  final int[] from;
  final int[] to;

  /** Slot of each of the element's own parameters. */
  final int[] slots;

  /** Induced voltage of each branch, as a share of the pickup's. */
  final double[] emf;

  Branches(int[] from, int[] to, double[] emf, Element element, ToIntFunction<String> slot) {
    this.from = from;
    this.to = to;
    this.emf = emf;
    this.slots = element.parameters().stream().mapToInt(slot).toArray();
  }

  private Branches(int from, int to, double emf, Element element, ToIntFunction<String> slot) {
    this(new int[] {from}, new int[] {to}, new double[] {emf}, element, slot);
  }

  static Branches of(Element element, ToIntFunction<String> slot) {
    if (element instanceof Element.Resistor r) {
      return new Conductance(r.from(), r.to(), r.share(), r, slot);
    } else if (element instanceof Element.WiperResistor w) {
      return new PotSide(w, slot);
    } else if (element instanceof Element.SeriesDrive d) {
      return new Drive(d, slot);
    } else if (element instanceof Element.CoupledInput i) {
      return new InputBehindCapacitor(i, slot);
    } else if (element instanceof Element.Capacitor c) {
      return new Susceptance(c, slot);
    } else if (element instanceof Element.LossyCapacitor c) {
      return new LossySusceptance(c, slot);
    } else if (element instanceof Element.ResistorCapacitor rc) {
      return new ToneBranch(rc, slot);
    } else if (element instanceof Element.Coil c) {
      return new SingleWinding(c, slot);
    } else if (element instanceof Element.CoupledCoils c) {
      return new WindingPair(c, slot);
    }
    throw new IllegalStateException("unknown element " + element);
  }

  /** Whether this is the series resistor of the drive. */
  boolean drive() {
    return false;
  }

  /** The voltage source in series with a branch: raises its {@code to} over its {@code from}. */
  final double source(int branch, BranchTable table, Probe probe) {
    return switch (probe) {
      case EMF_TO_JACK -> table.emf[branch];
      case DRIVE_TO_JACK -> drive() ? 1 : 0;
      default -> 0;
    };
  }

  final BranchTable table(double[] omega, double[] values, boolean sensitivities) {
    int entries = from.length == 1 ? 1 : 3;
    BranchTable table = new BranchTable(entries, slots.length, omega.length, sensitivities);
    table.emf = emf;
    fill(omega, values, table);
    return table;
  }

  abstract void fill(double[] omega, double[] values, BranchTable table);

  private static final class Conductance extends Branches {
    private final double share;

    Conductance(int from, int to, double share, Element e, ToIntFunction<String> slot) {
      super(from, to, 0, e, slot);
      this.share = share;
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      double g = 1 / (values[slots[0]] * share);
      java.util.Arrays.fill(t.re[0], g);
      if (t.sensitivities()) {
        java.util.Arrays.fill(t.dRe[0][0], -g);
      }
    }
  }

  /** The series resistor with its stray capacitance: y = 1/R + j w C. */
  private static final class Drive extends Branches {
    Drive(Element.SeriesDrive d, ToIntFunction<String> slot) {
      super(0, d.to(), 0, d, slot);
    }

    @Override
    boolean drive() {
      return true;
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      double g = 1 / values[slots[0]];
      java.util.Arrays.fill(t.re[0], g);
      if (t.sensitivities()) {
        java.util.Arrays.fill(t.dRe[0][0], -g);
      }
      if (slots.length > 1) {
        double c = values[slots[1]];
        for (int k = 0; k < omega.length; k++) {
          t.im[0][k] = omega[k] * c;
        }
        if (t.sensitivities()) {
          System.arraycopy(t.im[0], 0, t.dIm[1][0], 0, omega.length);
        }
      }
    }
  }

  /** With u = 1 / (1 + j x), x = w / wc: y = g (1 - s u), dy / d ln wc = -g s j x u^2. */
  private static final class InputBehindCapacitor extends Branches {
    InputBehindCapacitor(Element.CoupledInput input, ToIntFunction<String> slot) {
      super(0, input.to(), 0, input, slot);
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      double g = 1 / values[slots[0]];
      double corner = 2 * Math.PI * values[slots[1]];
      double odds = values[slots[2]];
      double s = odds / (1 + odds);
      for (int k = 0; k < omega.length; k++) {
        double x = omega[k] / corner;
        double norm = 1 / (1 + x * x);
        double uRe = norm;
        double uIm = -x * norm;
        t.re[0][k] = g * (1 - s * uRe);
        t.im[0][k] = -g * s * uIm;
        if (t.sensitivities()) {
          t.dRe[0][0][k] = -t.re[0][k];
          t.dIm[0][0][k] = -t.im[0][k];
          double squareRe = uRe * uRe - uIm * uIm;
          double squareIm = 2 * uRe * uIm;
          t.dRe[1][0][k] = g * s * x * squareIm;
          t.dIm[1][0][k] = -g * s * x * squareRe;
          t.dRe[2][0][k] = -g * s * (1 - s) * uRe;
          t.dIm[2][0][k] = -g * s * (1 - s) * uIm;
        }
      }
    }
  }

  private static final class PotSide extends Branches {
    private final Element.WiperResistor side;

    PotSide(Element.WiperResistor side, ToIntFunction<String> slot) {
      super(side.from(), side.to(), 0, side, slot);
      this.side = side;
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      double odds = values[slots[1]];
      double g = 1 / (values[slots[0]] * side.share(odds));
      java.util.Arrays.fill(t.re[0], g);
      if (t.sensitivities()) {
        java.util.Arrays.fill(t.dRe[0][0], -g);
        // d ln(o / (1 + o)) / d ln o = 1 / (1 + o), of the other side one less
        double slope = 1 / (1 + odds) - (side.above() ? 1 : 0);
        java.util.Arrays.fill(t.dRe[1][0], -g * slope);
      }
    }
  }

  private static final class Susceptance extends Branches {
    Susceptance(Element.Capacitor c, ToIntFunction<String> slot) {
      super(c.from(), c.to(), 0, c, slot);
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      double c = values[slots[0]];
      for (int k = 0; k < omega.length; k++) {
        t.im[0][k] = omega[k] * c;
      }
      if (t.sensitivities()) {
        System.arraycopy(t.im[0], 0, t.dIm[0][0], 0, omega.length);
      }
    }
  }

  private static final class LossySusceptance extends Branches {
    private final boolean constantPhase;

    LossySusceptance(Element.LossyCapacitor c, ToIntFunction<String> slot) {
      super(c.from(), c.to(), 0, c, slot);
      this.constantPhase = c.constantPhase();
    }

    /** Y = jwC u with u = (jw/w0)^-e; d Y / d ln tan = -Y ln(jw/w0) d e / d ln tan. */
    private void fillConstantPhase(double[] omega, double c, double tangent, BranchTable t) {
      double exponent = 2 / Math.PI * Math.atan(tangent);
      double slope = 2 / Math.PI * tangent / (1 + tangent * tangent);
      double cos = Math.cos(exponent * Math.PI / 2);
      double sin = Math.sin(exponent * Math.PI / 2);
      for (int k = 0; k < omega.length; k++) {
        double logarithm = omega[k] > 0 ? Math.log(omega[k] / Element.LossyCapacitor.QUOTED) : 0;
        double size = omega[k] * c * Math.exp(-exponent * logarithm);
        t.re[0][k] = size * sin;
        t.im[0][k] = size * cos;
        if (t.sensitivities()) {
          t.dRe[0][0][k] = t.re[0][k];
          t.dIm[0][0][k] = t.im[0][k];
          t.dRe[1][0][k] = -slope * (t.re[0][k] * logarithm - t.im[0][k] * Math.PI / 2);
          t.dIm[1][0][k] = -slope * (t.im[0][k] * logarithm + t.re[0][k] * Math.PI / 2);
        }
      }
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      double c = values[slots[0]];
      double tangent = values[slots[1]];
      if (constantPhase) {
        fillConstantPhase(omega, c, tangent, t);
        return;
      }
      for (int k = 0; k < omega.length; k++) {
        t.im[0][k] = omega[k] * c;
        t.re[0][k] = omega[k] * c * tangent;
      }
      if (t.sensitivities()) {
        System.arraycopy(t.im[0], 0, t.dIm[0][0], 0, omega.length);
        System.arraycopy(t.re[0], 0, t.dRe[0][0], 0, omega.length);
        System.arraycopy(t.re[0], 0, t.dRe[1][0], 0, omega.length);
      }
    }
  }

  private static final class ToneBranch extends Branches {
    private final double share;

    ToneBranch(Element.ResistorCapacitor rc, ToIntFunction<String> slot) {
      super(rc.from(), rc.to(), 0, rc, slot);
      this.share = rc.share();
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      double r = values[slots[0]] * share;
      double c = values[slots[1]];
      for (int k = 0; k < omega.length; k++) {
        // y = j w C h with h = 1 / (1 + j x), x = w R C; dy/dlnC = y h, dy/dlnR = -y (j x h).
        double x = omega[k] * r * c;
        double norm = 1 / (1 + x * x);
        double yRe = omega[k] * c * x * norm;
        double yIm = omega[k] * c * norm;
        t.re[0][k] = yRe;
        t.im[0][k] = yIm;
        if (t.sensitivities()) {
          double hIm = -x * norm;
          double dcRe = yRe * norm - yIm * hIm;
          double dcIm = yRe * hIm + yIm * norm;
          t.dRe[1][0][k] = dcRe;
          t.dIm[1][0][k] = dcIm;
          t.dRe[0][0][k] = x * dcIm;
          t.dIm[0][0][k] = -x * dcRe;
        }
      }
    }
  }

  private static final class SingleWinding extends Branches {
    private final Winding winding;

    SingleWinding(Element.Coil c, ToIntFunction<String> slot) {
      super(c.from(), c.to(), c.emfShare(), c, slot);
      this.winding = c.winding();
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      // The table first takes the impedance z, then y = 1/z and dy = -y^2 dz in its place.
      int own = t.dRe.length;
      double[][] dzRe = new double[own][];
      double[][] dzIm = new double[own][];
      for (int p = 0; p < own; p++) {
        dzRe[p] = t.dRe[p][0];
        dzIm[p] = t.dIm[p][0];
      }
      WindingImpedance.add(winding, omega, values, slots, 0, t.re[0], t.im[0], dzRe, dzIm);
      for (int k = 0; k < omega.length; k++) {
        double zRe = t.re[0][k];
        double zIm = t.im[0][k];
        double norm = 1 / (zRe * zRe + zIm * zIm);
        double yRe = zRe * norm;
        double yIm = -zIm * norm;
        t.re[0][k] = yRe;
        t.im[0][k] = yIm;
        double sRe = yIm * yIm - yRe * yRe;
        double sIm = -2 * yRe * yIm;
        for (int p = 0; p < own; p++) {
          double aRe = dzRe[p][k];
          double aIm = dzIm[p][k];
          dzRe[p][k] = sRe * aRe - sIm * aIm;
          dzIm[p][k] = sRe * aIm + sIm * aRe;
        }
      }
    }
  }
}
