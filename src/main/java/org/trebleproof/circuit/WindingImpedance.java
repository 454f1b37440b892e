package org.trebleproof.circuit;

/**
 * Adds up the impedance of a winding and its derivatives by the logarithms of its parameters. Each
 * part answers with the number of its parameters.
 */
final class WindingImpedance implements Inductance.Kinds<Integer> {

  /** What is left of the static flux. */
  private interface Flux {
    /**
     * Share of the flux and its derivative.
     *
     * @param x angular frequency times a time constant
     * @param out receives real and imaginary part of the share, then of its derivative by ln x
     */
    void at(double x, double[] out);
  }

  private static final Flux RELAXATION = WindingImpedance::relaxation;
  private static final Flux CYLINDER = SolidCylinder::flux;

  private final double[] omega;
  private final double[] values;
  private final int[] slots;
  private final double[] re;
  private final double[] im;
  private final double[][] dRe;
  private final double[][] dIm;
  private final boolean sensitivities;

  /** Where the parameters of the part at hand start among the element's own. */
  private int own;

  private WindingImpedance(
      double[] omega,
      double[] values,
      int[] slots,
      int offset,
      double[] re,
      double[] im,
      double[][] dRe,
      double[][] dIm) {
    this.omega = omega;
    this.values = values;
    this.slots = slots;
    this.own = offset;
    this.re = re;
    this.im = im;
    this.dRe = dRe;
    this.dIm = dIm;
    this.sensitivities = dRe.length > 0;
  }

  /**
   * Adds the impedance at every frequency.
   *
   * @param omega angular frequencies [rad/s]
   * @param values by slot, SI
   * @param slots slot of each of the element's own parameters
   * @param offset where this winding's parameters start among them
   * @param re receives the real part [ohm]
   * @param im receives the imaginary part [ohm]
   * @param dRe receives d Re / d ln own parameter; no rows for values only
   * @param dIm the same for the imaginary part
   */
  static void add(
      Winding winding,
      double[] omega,
      double[] values,
      int[] slots,
      int offset,
      double[] re,
      double[] im,
      double[][] dRe,
      double[][] dIm) {
    WindingImpedance sum = new WindingImpedance(omega, values, slots, offset, re, im, dRe, dIm);
    if (winding.resistance().isPresent()) {
      sum.own += sum.resistance(winding.warmth().isPresent());
    }
    for (Inductance inductance : winding.inductances()) {
      sum.own += inductance.as(sum);
    }
  }

  private int resistance(boolean warm) {
    double r = values[slots[own]] * (warm ? values[slots[own + 1]] : 1);
    for (int k = 0; k < omega.length; k++) {
      re[k] += r;
    }
    if (sensitivities) {
      java.util.Arrays.fill(dRe[own], r);
      if (warm) {
        java.util.Arrays.fill(dRe[own + 1], r);
      }
    }
    return warm ? 2 : 1;
  }

  @Override
  public Integer plain(Inductance.Plain part) {
    double l = values[slots[own]];
    for (int k = 0; k < omega.length; k++) {
      double wl = omega[k] * l;
      im[k] += wl;
      if (sensitivities) {
        dIm[own][k] = wl;
      }
    }
    return 1;
  }

  @Override
  public Integer lossResistor(Inductance.LossResistor part) {
    // tau = L / Re
    return relaxing(RELAXATION, values[slots[own]] / values[slots[own + 1]], true);
  }

  @Override
  public Integer split(Inductance.Split part) {
    return relaxing(RELAXATION, values[slots[own + 1]], false);
  }

  @Override
  public Integer solidCore(Inductance.SolidCore part) {
    return relaxing(CYLINDER, values[slots[own + 1]], false);
  }

  /**
   * z = j w L f.
   *
   * @param time constant [s]
   * @param parallel whether the second parameter is a resistance, L over the time
   */
  private int relaxing(Flux flux, double time, boolean parallel) {
    double l = values[slots[own]];
    double[] part = new double[4];
    for (int k = 0; k < omega.length; k++) {
      flux.at(omega[k] * time, part);
      double wl = omega[k] * l;
      double zRe = -wl * part[1];
      double zIm = wl * part[0];
      re[k] += zRe;
      im[k] += zIm;
      if (sensitivities) {
        double tRe = -wl * part[3];
        double tIm = wl * part[2];
        dRe[own][k] = parallel ? zRe + tRe : zRe;
        dIm[own][k] = parallel ? zIm + tIm : zIm;
        dRe[own + 1][k] = parallel ? -tRe : tRe;
        dIm[own + 1][k] = parallel ? -tIm : tIm;
      }
    }
    return 2;
  }

  @Override
  public Integer departure(Inductance.Departure departure) {
    double l = values[slots[own]];
    for (int n = 0; n < departure.times().size(); n++) {
      double factor = values[slots[own + 1 + n]];
      double time = departure.times().get(n);
      for (int k = 0; k < omega.length; k++) {
        double x = omega[k] * time;
        // j w L / (1 + j x) = w L (x + j) / (1 + x^2)
        double unit = omega[k] * l / (1 + x * x);
        double zRe = unit * x * (factor - 1);
        double zIm = unit * (factor - 1);
        re[k] += zRe;
        im[k] += zIm;
        if (sensitivities) {
          dRe[own][k] += zRe;
          dIm[own][k] += zIm;
          dRe[own + 1 + n][k] = unit * x * factor;
          dIm[own + 1 + n][k] = unit * factor;
        }
      }
    }
    return 1 + departure.times().size();
  }

  /** f = 1 / (1 + j x) and d f / d ln x = -j x f^2. */
  private static void relaxation(double x, double[] part) {
    double norm = 1 / (1 + x * x);
    double im = -x * norm;
    part[0] = norm;
    part[1] = im;
    // -j x (re + j im)^2 with re = norm
    part[2] = x * 2 * norm * im;
    part[3] = -x * (norm * norm - im * im);
  }
}
