package org.trebleproof.circuit;

/** What is asked of a circuit. */
public enum Probe {
  /** Jack voltage over the pickup's whole induced voltage; the drive lead is unplugged. */
  EMF_TO_JACK,
  /** Jack voltage over the ideal source behind the {@link Element.SeriesDrive}; no induction. */
  DRIVE_TO_JACK,
  /** Impedance from jack to ground [ohm]; no source, the drive lead unplugged. */
  JACK_IMPEDANCE,
  /** Admittance from jack to ground [S]; no source, the drive lead unplugged. */
  JACK_ADMITTANCE,
  /** Impedance from the pickup's hot end to ground [ohm]; no source, the drive lead unplugged. */
  PICKUP_IMPEDANCE,
  /** Admittance from the pickup's hot end to ground [S]; no source, the drive lead unplugged. */
  PICKUP_ADMITTANCE
}
