package org.trebleproof.shelf.item;

import java.util.Arrays;

/** What became of a coil's measurement. The word is its name in the store and never changes. */
public enum CoilState {
  GOOD("good"),
  /** Some of its values were withdrawn. */
  DOUBTED("doubtful"),
  OPEN("open"),
  SHORTED("shorted turns"),
  /** The recording told nothing of the coil. */
  REFUSED("refused"),
  /** It is recorded and not worked out yet. */
  WAITING("waiting");

  private final String word;

  CoilState(String word) {
    this.word = word;
  }

  public String word() {
    return word;
  }

  /** Whether the coil itself is broken. */
  public boolean broken() {
    return this == OPEN || this == SHORTED;
  }

  public static CoilState of(String word) {
    return Arrays.stream(values()).filter(s -> s.word.equals(word)).findFirst().orElse(REFUSED);
  }
}
