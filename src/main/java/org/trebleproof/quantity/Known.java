package org.trebleproof.quantity;

import java.util.Locale;

/** How an estimate is known. */
public enum Known {
  /** The data at least halve the interval that was assumed beforehand. */
  MEASURED,
  /** Mostly what a marking, a tolerance or a default says. */
  ASSUMED,
  /** Follows from other rows. */
  DERIVED;

  /** The word used in result files and on pages. */
  public String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
