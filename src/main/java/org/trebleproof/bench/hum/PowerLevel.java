package org.trebleproof.bench.hum;

import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.MeanPower;

/** Levels of measured powers, and their differences, in dB with 95 % intervals. */
final class PowerLevel {

  private PowerLevel() {}

  /** Level re full scale, less a reference [dB]. */
  static Estimate of(MeanPower power, double reference) {
    double value = FullScale.level(floor(power.positive())) - reference;
    double low = FullScale.level(floor(power.quantile(0.025))) - reference;
    double high = FullScale.level(floor(power.quantile(0.975))) - reference;
    return new Estimate(
        value, Math.min(low, value), Math.max(high, value), Unit.DECIBEL, Known.MEASURED);
  }

  /**
   * Level of one power over another; the interval is that of two independent ones (Zou and Donner,
   * "Construction of confidence limits about effect measures", Statist. Med. 27, 2008; from
   * memory).
   */
  static Estimate difference(MeanPower power, MeanPower over) {
    Estimate a = of(power, 0);
    Estimate b = of(over, 0);
    double value = a.value() - b.value();
    double low = value - Math.hypot(a.value() - a.low(), b.high() - b.value());
    double high = value + Math.hypot(a.high() - a.value(), b.value() - b.low());
    return new Estimate(value, low, high, Unit.DECIBEL, Known.MEASURED);
  }

  private static double floor(double power) {
    return Math.max(power, Float.MIN_NORMAL);
  }
}
