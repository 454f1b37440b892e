package org.trebleproof.bench.mod.predict;

import org.trebleproof.bench.mod.guitar.WiredCircuit;

/**
 * A band of frequencies, or one frequency, in which a level is taken as mean power.
 *
 * @param lowHz lower edge [Hz]
 * @param highHz upper edge [Hz]
 */
public record Band(double lowHz, double highHz) {
  private static final int POINTS = 33;

  private double[] hz() {
    if (lowHz == highHz) {
      return new double[] {lowHz};
    }
    double[] hz = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      hz[i] = lowHz * Math.pow(highHz / lowHz, i / (POINTS - 1.0));
    }
    return hz;
  }

  /** Mean power of jack voltage over induced voltage [dB]. */
  public double level(WiredCircuit wired, double[] log) {
    double sum = 0;
    double[] powers = wired.powers(log, hz());
    for (double power : powers) {
      sum += power;
    }
    return 10 * Math.log10(sum / powers.length);
  }
}
