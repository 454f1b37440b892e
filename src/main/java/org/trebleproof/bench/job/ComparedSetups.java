package org.trebleproof.bench.job;

import java.util.List;

/** Which setups of a job are held against each other. */
public final class ComparedSetups {

  private ComparedSetups() {}

  /**
   * The one against which the others are held, then those. Two are always compared. Of more, a bare
   * coil is swept to know it and not to be heard against guitars; and with another pickup nothing
   * is known that both share.
   *
   * @param setups of a job, in its order; at least one
   */
  public static List<Setup> of(List<Setup> setups) {
    if (setups.size() <= 2) {
      return setups;
    }
    List<Setup> wired = setups.stream().filter(s -> !s.bare()).toList();
    List<Setup> comparable = wired.size() < 2 ? setups : wired;
    String pickup = comparable.get(0).pickup();
    return comparable.stream().filter(s -> s.pickup().equals(pickup)).toList();
  }
}
