package org.trebleproof.bench.hum;

import java.util.Locale;

/**
 * One thing that the recordings point at.
 *
 * @param code what it is
 * @param strength how far the recordings carry
 * @param evidence the measured differences it rests on, in sentences; empty where nothing was
 *     recorded that could tell
 * @param next the test or the mend that follows
 */
public record HumCause(Code code, Strength strength, String evidence, String next) {

  /** Whether any recording speaks about it. */
  public boolean recorded() {
    return !evidence.isEmpty();
  }

  /** The evidence, or that there is none yet. */
  public String heard() {
    return recorded() ? evidence : "no recording speaks about it yet";
  }

  /** What hum may come from. */
  public enum Code {
    UNSHIELDED("the body's noise gets in through an unshielded cavity"),
    STRING_GROUND_OPEN("the string ground is open or high"),
    MAGNETIC("a magnetic field gets into the coil"),
    DOWNSTREAM("hum comes in after the guitar: the lead, or a ground loop"),
    INTERFACE("hum comes from the interface or its supply"),
    RADIO("a phone or a radio link is heard"),
    QUIET("nothing stands above the hiss");

    private final String words;

    Code(String words) {
      this.words = words;
    }

    /** Its name in result files. */
    public String key() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** What it means, without a capital or a full stop. */
    public String words() {
      return words;
    }
  }

  /** How far the recordings carry. */
  public enum Strength {
    LIKELY,
    POSSIBLE,
    CANNOT_TELL;

    /** The words used in result files and on pages. */
    public String words() {
      return name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }
  }
}
