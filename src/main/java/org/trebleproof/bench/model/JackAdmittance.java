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
   * @param measured device over reference channel
   * @param ratio gain of the device channel over the reference channel's
   * @param delay extra delay of the device channel [s]
   * @param seriesResistance [ohm]
   */
  public static JackAdmittance of(
      Response measured, double ratio, double delay, double seriesResistance) {
    int n = measured.size();
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      double w = 2 * Math.PI * measured.hz()[i];
      double power = measured.re()[i] * measured.re()[i] + measured.im()[i] * measured.im()[i];
      // 1/h = K exp(-jwd) / H
      double cos = Math.cos(w * delay);
      double sin = -Math.sin(w * delay);
      double hRe = measured.re()[i] / power;
      double hIm = -measured.im()[i] / power;
      re[i] = (ratio * (cos * hRe - sin * hIm) - 1) / seriesResistance;
      im[i] = ratio * (cos * hIm + sin * hRe) / seriesResistance;
      sd[i] = ratio * measured.sd()[i] / power / seriesResistance;
    }
    return new JackAdmittance(measured.hz(), re, im, sd);
  }

  public int size() {
    return hz.length;
  }
}
