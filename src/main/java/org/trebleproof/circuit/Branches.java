package org.trebleproof.circuit;

import java.util.List;
import java.util.function.ToIntFunction;

/** An element made ready for analysis: its branches, and its parameters as slots. */
abstract class Branches {
  final int[] from;
  final int[] to;

  /** Slot of each of the element's own parameters. */
  final int[] slots;

  /** Induced voltage of each branch, as a share of the pickup's. */
  final double[] emf;

  private Branches(
      int[] from, int[] to, double[] emf, Element element, ToIntFunction<String> slot) {
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

  private static final class WindingPair extends Branches {
    private final Winding first;
    private final Winding second;
    private final int firstCount;
    private final int[] firstPlain;
    private final int[] secondPlain;
    private final int odds;
    private final List<Double> commonTimes;
    private final boolean divided;

    WindingPair(Element.CoupledCoils pair, ToIntFunction<String> slot) {
      super(
          new int[] {pair.first().from(), pair.second().from()},
          new int[] {pair.first().to(), pair.second().to()},
          new double[] {pair.first().emfShare(), pair.second().emfShare()},
          pair,
          slot);
      this.first = pair.first().winding();
      this.second = pair.second().winding();
      this.firstCount = first.parameters().size();
      this.firstPlain = plainIndices(first, 0);
      this.secondPlain = plainIndices(second, firstCount);
      this.odds = firstCount + second.parameters().size();
      this.commonTimes = pair.common().map(Element.CommonDeparture::times).orElseGet(List::of);
      this.divided = pair.inducedOdds().isPresent();
    }

    private static int[] plainIndices(Winding winding, int offset) {
      List<String> plain = winding.plainInductance();
      List<String> all = winding.parameters();
      return plain.stream().mapToInt(name -> offset + all.indexOf(name)).toArray();
    }

    private double sum(int[] own, double[] values) {
      double sum = 0;
      for (int i : own) {
        sum += values[slots[i]];
      }
      return sum;
    }

    private void divide(double odds, BranchTable t) {
      double whole = emf[0] + emf[1];
      double share = odds / (1 + odds);
      t.emf = new double[] {share * whole, (1 - share) * whole};
      double slope = share * (1 - share) * whole;
      t.slopeOfEmf = new double[] {slope, -slope};
    }

    @Override
    void fill(double[] omega, double[] values, BranchTable t) {
      if (divided) {
        divide(values[slots[slots.length - 1]], t);
      }
      int own = t.dRe.length;
      double[][] d11Re = new double[own][];
      double[][] d11Im = new double[own][];
      double[][] d22Re = new double[own][];
      double[][] d22Im = new double[own][];
      for (int p = 0; p < own; p++) {
        d11Re[p] = t.dRe[p][0];
        d11Im[p] = t.dIm[p][0];
        d22Re[p] = t.dRe[p][2];
        d22Im[p] = t.dIm[p][2];
      }
      WindingImpedance.add(first, omega, values, slots, 0, t.re[0], t.im[0], d11Re, d11Im);
      WindingImpedance.add(
          second, omega, values, slots, firstCount, t.re[2], t.im[2], d22Re, d22Im);

      double q = values[slots[odds]];
      double l1 = sum(firstPlain, values);
      double l2 = sum(secondPlain, values);
      double mutual = q / (1 + q) * Math.sqrt(l1 * l2);
      // d M / d ln parameter
      double[] dMutual = new double[own];
      if (own > 0) {
        dMutual[odds] = mutual / (1 + q);
        for (int i : firstPlain) {
          dMutual[i] += mutual / 2 * values[slots[i]] / l1;
        }
        for (int i : secondPlain) {
          dMutual[i] += mutual / 2 * values[slots[i]] / l2;
        }
      }
      // The impedance between the windings and its derivatives.
      double[] zmRe = new double[omega.length];
      double[] zmIm = new double[omega.length];
      double[][] dmRe = new double[own][omega.length];
      double[][] dmIm = new double[own][omega.length];
      for (int k = 0; k < omega.length; k++) {
        zmIm[k] = omega[k] * mutual;
        for (int p = 0; p < own; p++) {
          dmIm[p][k] = omega[k] * dMutual[p];
        }
      }
      addCommon(omega, values, l1, l2, t, zmRe, zmIm, dmRe, dmIm);
      for (int k = 0; k < omega.length; k++) {
        double aRe = t.re[0][k];
        double aIm = t.im[0][k];
        double bRe = t.re[2][k];
        double bIm = t.im[2][k];
        double mRe = zmRe[k];
        double mIm = zmIm[k];
        // determinant a b - m^2
        double detRe = aRe * bRe - aIm * bIm + mIm * mIm - mRe * mRe;
        double detIm = aRe * bIm + aIm * bRe - 2 * mRe * mIm;
        double norm = 1 / (detRe * detRe + detIm * detIm);
        double iRe = detRe * norm;
        double iIm = -detIm * norm;
        double y11Re = bRe * iRe - bIm * iIm;
        double y11Im = bRe * iIm + bIm * iRe;
        double y22Re = aRe * iRe - aIm * iIm;
        double y22Im = aRe * iIm + aIm * iRe;
        double y12Re = mIm * iIm - mRe * iRe;
        double y12Im = -mIm * iRe - mRe * iIm;
        t.re[0][k] = y11Re;
        t.im[0][k] = y11Im;
        t.re[1][k] = y12Re;
        t.im[1][k] = y12Im;
        t.re[2][k] = y22Re;
        t.im[2][k] = y22Im;
        for (int p = 0; p < own; p++) {
          double d1Re = d11Re[p][k];
          double d1Im = d11Im[p][k];
          double d2Re = d22Re[p][k];
          double d2Im = d22Im[p][k];
          double dRe = dmRe[p][k];
          double dIm = dmIm[p][k];
          // P = dZ Y, both columns, then dY = -Y P (Y is symmetric).
          double p11Re = d1Re * y11Re - d1Im * y11Im + dRe * y12Re - dIm * y12Im;
          double p11Im = d1Re * y11Im + d1Im * y11Re + dRe * y12Im + dIm * y12Re;
          double p21Re = d2Re * y12Re - d2Im * y12Im + dRe * y11Re - dIm * y11Im;
          double p21Im = d2Re * y12Im + d2Im * y12Re + dRe * y11Im + dIm * y11Re;
          double p12Re = d1Re * y12Re - d1Im * y12Im + dRe * y22Re - dIm * y22Im;
          double p12Im = d1Re * y12Im + d1Im * y12Re + dRe * y22Im + dIm * y22Re;
          double p22Re = d2Re * y22Re - d2Im * y22Im + dRe * y12Re - dIm * y12Im;
          double p22Im = d2Re * y22Im + d2Im * y22Re + dRe * y12Im + dIm * y12Re;
          t.dRe[p][0][k] = -(y11Re * p11Re - y11Im * p11Im + y12Re * p21Re - y12Im * p21Im);
          t.dIm[p][0][k] = -(y11Re * p11Im + y11Im * p11Re + y12Re * p21Im + y12Im * p21Re);
          t.dRe[p][1][k] = -(y11Re * p12Re - y11Im * p12Im + y12Re * p22Re - y12Im * p22Im);
          t.dIm[p][1][k] = -(y11Re * p12Im + y11Im * p12Re + y12Re * p22Im + y12Im * p22Re);
          t.dRe[p][2][k] = -(y12Re * p12Re - y12Im * p12Im + y22Re * p22Re - y22Im * p22Im);
          t.dIm[p][2][k] = -(y12Re * p12Im + y12Im * p12Re + y22Re * p22Im + y22Im * p22Re);
        }
      }
    }

    /** What metal that both windings see adds to all three impedances. */
    private void addCommon(
        double[] omega,
        double[] values,
        double l1,
        double l2,
        BranchTable t,
        double[] zmRe,
        double[] zmIm,
        double[][] dmRe,
        double[][] dmIm) {
      double between = Math.sqrt(l1 * l2);
      boolean sensitivities = dmRe.length > 0;
      for (int n = 0; n < commonTimes.size(); n++) {
        int own = odds + 1 + n;
        double factor = values[slots[own]];
        double time = commonTimes.get(n);
        for (int k = 0; k < omega.length; k++) {
          // j w / (1 + j x) = w (x + j) / (1 + x^2)
          double x = omega[k] * time;
          double unitIm = omega[k] / (1 + x * x);
          double unitRe = unitIm * x;
          double re = unitRe * (factor - 1);
          double im = unitIm * (factor - 1);
          t.re[0][k] += l1 * re;
          t.im[0][k] += l1 * im;
          t.re[2][k] += l2 * re;
          t.im[2][k] += l2 * im;
          zmRe[k] += between * re;
          zmIm[k] += between * im;
          if (!sensitivities) {
            continue;
          }
          t.dRe[own][0][k] = l1 * unitRe * factor;
          t.dIm[own][0][k] = l1 * unitIm * factor;
          t.dRe[own][2][k] = l2 * unitRe * factor;
          t.dIm[own][2][k] = l2 * unitIm * factor;
          dmRe[own][k] = between * unitRe * factor;
          dmIm[own][k] = between * unitIm * factor;
          for (int i : firstPlain) {
            double l = values[slots[i]];
            t.dRe[i][0][k] += l * re;
            t.dIm[i][0][k] += l * im;
            dmRe[i][k] += between * re / 2 * l / l1;
            dmIm[i][k] += between * im / 2 * l / l1;
          }
          for (int i : secondPlain) {
            double l = values[slots[i]];
            t.dRe[i][2][k] += l * re;
            t.dIm[i][2][k] += l * im;
            dmRe[i][k] += between * re / 2 * l / l2;
            dmIm[i][k] += between * im / 2 * l / l2;
          }
        }
      }
    }
  }
}
