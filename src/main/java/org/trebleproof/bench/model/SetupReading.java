package org.trebleproof.bench.model;

import org.trebleproof.quantity.Resonance;

/** A setup at one point of a fit's coordinates: what its rows are worked out from. */
public interface SetupReading {

  /** The setup. */
  SetupQuantities of();

  /** The coordinates. */
  double[] x();

  /** Whether a peak stands up. */
  boolean resonates();

  /** The peak, of a setup that resonates. */
  Resonance peak();

  /** Highest frequency 3 dB below the level at 20 Hz [Hz]; NaN if above 20 kHz. */
  double cutoff();

  /** Where load and capacitance are quoted: at the resonance, or where one usually is [Hz]. */
  double quotedAt();
}
