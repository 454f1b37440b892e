package org.trebleproof.bench.job;

/**
 * Names that the program gives to unknowns, layouts and parts of its own. They carry a mark that no
 * name in a job, a kept guitar or an option may begin with, so that the two never meet.
 */
public final class OwnName {

  private static final String MARK = "#";

  private OwnName() {}

  /** Such a name made of these words. */
  public static String of(String words) {
    return MARK + words;
  }

  /** Whether the program gave a name. */
  public static boolean is(String name) {
    return name.startsWith(MARK);
  }
}
