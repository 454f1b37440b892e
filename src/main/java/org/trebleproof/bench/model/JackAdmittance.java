package org.trebleproof.bench.model;

import org.trebleproof.quantity.Response;

/**
 * Admittance from jack to ground, straight from a series capture: with the true ratio h of device
 * over reference voltage, {@code Y = (1/h - 1) / Rs}. The recorder's input is part of it.
 *
 * @param hz [Hz]
 * @param re conductance [S]
 * @param im susceptance [S]
 * @param sd standard deviation of each from noise alone [S]
 */
public record JackAdmittance(double[] hz, double[] re, double[] im, double[] sd) {

  /**
   * @param ratio of device over reference voltage, with all that the recording path does taken off
   * @param seriesResistance [ohm]
   * @param stray capacitance from end to end of that resistor [F]
   */
  public static JackAdmittance of(Response ratio, double seriesResistance, double stray) {
    int n = ratio.size();
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    double g = 1 / seriesResistance;
    for (int i = 0; i < n; i++) {
      double power = ratio.re()[i] * ratio.re()[i] + ratio.im()[i] * ratio.im()[i];
      double b = 2 * Math.PI * ratio.hz()[i] * stray;
      // (1/h - 1) (g + j b)
      double uRe = ratio.re()[i] / power - 1;
      double uIm = -ratio.im()[i] / power;
      re[i] = uRe * g - uIm * b;
      im[i] = uRe * b + uIm * g;
      sd[i] = ratio.sd()[i] / power * Math.hypot(g, b);
    }
    return new JackAdmittance(ratio.hz(), re, im, sd);
  }

  /** The same of a recording of which gain and delay are known and nothing else is. */
  public static JackAdmittance of(
      Response measured, double ratio, double delay, double seriesResistance) {
    int n = measured.size();
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      double w = 2 * Math.PI * measured.hz()[i];
      double cos = Math.cos(w * delay) / ratio;
      double sin = Math.sin(w * delay) / ratio;
      re[i] = measured.re()[i] * cos - measured.im()[i] * sin;
      im[i] = measured.re()[i] * sin + measured.im()[i] * cos;
      sd[i] = measured.sd()[i] / ratio;
    }
    return of(new Response(measured.hz(), re, im, sd), seriesResistance, 0);
  }

  public int size() {
    return hz.length;
  }
}
