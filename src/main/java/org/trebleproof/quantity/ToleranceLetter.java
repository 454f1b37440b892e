package org.trebleproof.quantity;

import java.util.Optional;

/**
 * Tolerance letters on parts. Source: IEC 60062, clause 5, letters and percentages from memory.
 *
 * <p>The letters for capacitors under 10 pF, which state picofarads (B 0.1, C 0.25, D 0.5, F 1, G
 * 2), are the same ones; see {@link #ofSmallCapacitor}.
 */
public enum ToleranceLetter {
  B(-0.1, 0.1),
  C(-0.25, 0.25),
  D(-0.5, 0.5),
  F(-1, 1),
  G(-2, 2),
  H(-3, 3),
  J(-5, 5),
  K(-10, 10),
  M(-20, 20),
  N(-30, 30),
  Q(-10, 30),
  T(-10, 50),
  S(-20, 50),
  Z(-20, 80);

  private final double lowPercent;
  private final double highPercent;

  ToleranceLetter(double lowPercent, double highPercent) {
    this.lowPercent = lowPercent;
    this.highPercent = highPercent;
  }

  static Optional<ToleranceLetter> of(char letter) {
    for (ToleranceLetter each : values()) {
      if (each.name().charAt(0) == letter) {
        return Optional.of(each);
      }
    }
    return Optional.empty();
  }

  /** Tolerance [F] of a capacitor under 10 pF; empty for letters that have no such meaning. */
  Optional<Double> ofSmallCapacitor() {
    return switch (this) {
      case B -> Optional.of(0.1e-12);
      case C -> Optional.of(0.25e-12);
      case D -> Optional.of(0.5e-12);
      case F -> Optional.of(1e-12);
      case G -> Optional.of(2e-12);
      default -> Optional.empty();
    };
  }

  /**
   * The marking of a part with this letter. An unequal pair of limits is kept as it is: the value
   * becomes the middle of the two on a logarithmic scale, so that 100 nF with Z (80 to 180 nF) is
   * read as 120 nF and a factor 1.5 either way.
   */
  Marking mark(double value, boolean capacitor) {
    if (capacitor && value < 10e-12 && ofSmallCapacitor().isPresent()) {
      return new Marking(value, ofSmallCapacitor().get() / value, true);
    }
    if (-lowPercent == highPercent) {
      return new Marking(value, highPercent / 100, true);
    }
    double low = 1 + lowPercent / 100;
    double high = 1 + highPercent / 100;
    return new Marking(value * Math.sqrt(low * high), Math.log(high / low) / 2, true);
  }
}
