package org.trebleproof.quantity;

/**
 * Whether a part is what its marking says. A value that is known with an interval decides this only
 * where the whole interval lies on one side of the marking's limits (JCGM 106:2012, Evaluation of
 * measurement data - The role of measurement uncertainty in conformity assessment, section 8.3:
 * guarded acceptance and guarded rejection, here with half the 95 % interval as the guard band; ISO
 * 14253-1 has the same rule. Section numbers from memory).
 */
public enum Conformity {
  WITHIN("within"),
  OUTSIDE("outside"),
  /** The interval reaches across a limit. */
  UNDECIDED("undecided");

  private final String word;

  Conformity(String word) {
    this.word = word;
  }

  /** As result files name it. */
  public String word() {
    return word;
  }

  /**
   * Holds a value against a marking.
   *
   * @param measured what was found, without help from the marking itself
   */
  public static Conformity of(Marking marking, Estimate measured) {
    double least = marking.value() * (1 - marking.tolerance());
    double most = marking.value() * (1 + marking.tolerance());
    if (measured.high() < least || measured.low() > most) {
      return OUTSIDE;
    }
    return measured.low() >= least && measured.high() <= most ? WITHIN : UNDECIDED;
  }
}
