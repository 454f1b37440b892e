package org.trebleproof.circuit;

/** Impedance of a winding and its derivatives by the logarithms of its parameters. */
final class WindingImpedance {
  private WindingImpedance() {}

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
    boolean sensitivities = dRe.length > 0;
    int own = offset;
    if (winding.resistance().isPresent()) {
      boolean warm = winding.warmth().isPresent();
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
      own += warm ? 2 : 1;
    }
    double[] part = new double[4];
    for (Inductance inductance : winding.inductances()) {
      double l = values[slots[own]];
      if (inductance instanceof Inductance.Departure departure) {
        addDeparture(departure, omega, values, slots, own, re, im, dRe, dIm);
        own += departure.parameters().size();
        continue;
      }
      boolean plain = inductance instanceof Inductance.Plain;
      double time = plain ? 0 : values[slots[own + 1]];
      boolean parallel = inductance instanceof Inductance.LossResistor;
      boolean cylinder = inductance instanceof Inductance.SolidCore;
      if (parallel) {
        time = l / time;
      }
      for (int k = 0; k < omega.length; k++) {
        // z = j w L f; part holds f and its derivative by ln tau.
        double x = omega[k] * time;
        if (plain) {
          part[0] = 1;
        } else if (cylinder) {
          SolidCylinder.flux(x, part);
        } else {
          relaxation(x, part);
        }
        double wl = omega[k] * l;
        double zRe = -wl * part[1];
        double zIm = wl * part[0];
        re[k] += zRe;
        im[k] += zIm;
        if (sensitivities) {
          dRe[own][k] = zRe;
          dIm[own][k] = zIm;
          if (!plain) {
            double tRe = -wl * part[3];
            double tIm = wl * part[2];
            if (parallel) {
              // tau = L / Re
              dRe[own][k] += tRe;
              dIm[own][k] += tIm;
              tRe = -tRe;
              tIm = -tIm;
            }
            dRe[own + 1][k] = tRe;
            dIm[own + 1][k] = tIm;
          }
        }
      }
      own += plain ? 1 : 2;
    }
  }

  private static void addDeparture(
      Inductance.Departure departure,
      double[] omega,
      double[] values,
      int[] slots,
      int own,
      double[] re,
      double[] im,
      double[][] dRe,
      double[][] dIm) {
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
        if (dRe.length > 0) {
          dRe[own][k] += zRe;
          dIm[own][k] += zIm;
          dRe[own + 1 + n][k] = unit * x * factor;
          dIm[own + 1 + n][k] = unit * factor;
        }
      }
    }
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
