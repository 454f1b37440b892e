package org.trebleproof.bench.hum;

/** A state in which silence is recorded, guitar plugged in and volume up unless said otherwise. */
public enum HumState {
  HANDS_OFF(
      "hands-off", "hands off", "record ten seconds with the volume up and no hand on the guitar"),
  ON_STRINGS(
      "on-strings",
      "hand on the strings",
      "record ten seconds with a hand on the strings and nothing else"),
  ON_SLEEVE(
      "on-sleeve",
      "hand on the plug's sleeve",
      "record ten seconds with a finger on the metal sleeve of the lead's plug and nothing else"),
  VOLUME_ZERO(
      "volume-zero",
      "volume at zero",
      "record ten seconds with the guitar's volume at zero and hands off"),
  NO_LEAD(
      "no-lead", "no lead", "record ten seconds with no lead in the interface's input, same gain"),
  TURNED(
      "turned",
      "guitar turned",
      "record ten seconds, hands off, with the guitar turned by a quarter where it stands");

  private final String key;
  private final String words;
  private final String test;

  HumState(String key, String words, String test) {
    this.key = key;
    this.words = words;
    this.test = test;
  }

  /** Its name in options and result files. */
  public String key() {
    return key;
  }

  /** Its name on a page. */
  public String words() {
    return words;
  }

  /** How to record it, as an instruction without a capital or a full stop. */
  public String test() {
    return test;
  }

  /** Whether a hand touches something that can be heard to be touched. */
  public boolean handed() {
    return this == ON_STRINGS || this == ON_SLEEVE;
  }

  /** Whether the pickup is heard in this state. */
  public boolean pickupHeard() {
    return this != VOLUME_ZERO && this != NO_LEAD;
  }
}
