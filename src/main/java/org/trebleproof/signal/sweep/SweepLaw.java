package org.trebleproof.signal.sweep;

/**
 * How a sweep's frequency runs: f(t) = startHz exp(t / rate), t from 0 to rate ln(endHz / startHz).
 * Farina, "Simultaneous measurement of impulse response and distortion with a swept-sine
 * technique", 108th AES Convention, 2000, preprint 5093, section 4.
 *
 * @param startHz frequency at the start [Hz]
 * @param endHz frequency at the end [Hz]
 * @param rate time in which the frequency grows by a factor e [s]
 */
public record SweepLaw(double startHz, double endHz, double rate) {

  /** Time from the start at which the sweep passes {@code hz} [s]. */
  public double timeOf(double hz) {
    return rate * Math.log(hz / startHz);
  }

  /** How much earlier than the fundamental a harmonic passes its own frequency [s]. */
  public double harmonicLead(int order) {
    return rate * Math.log(order);
  }
}
