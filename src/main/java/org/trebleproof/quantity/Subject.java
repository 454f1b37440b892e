package org.trebleproof.quantity;

import java.util.Objects;

/** What a row of a result is about: a pickup's coil, a setup, a part, or the change. */
public final class Subject {

  /** What differs between two setups. */
  public static final Subject CHANGE = new Subject(Kind.CHANGE, "change", "change", "change");

  /** What a subject is. */
  public enum Kind {
    COIL,
    /** A pickup with a load, as it was recorded. */
    SETUP,
    /** A pot, resistor, capacitor or cable. */
    PART,
    CHANGE
  }

  private final Kind kind;
  private final String name;
  private final String code;
  private final String words;

  private Subject(Kind kind, String name, String code, String words) {
    this.kind = kind;
    this.name = name;
    this.code = code;
    this.words = words;
  }

  /**
   * A pickup's coil.
   *
   * @param pickup the pickup's name in the job
   * @param only whether the job has no other pickup; then it is called no name
   */
  public static Subject coil(String pickup, boolean only) {
    return new Subject(Kind.COIL, pickup, only ? "pickup" : pickup, only ? "coil" : pickup);
  }

  public static Subject setup(String name) {
    return new Subject(Kind.SETUP, name, name, name);
  }

  public static Subject part(String name) {
    return new Subject(Kind.PART, name, name, name);
  }

  public Kind kind() {
    return kind;
  }

  /** Its name in the job. */
  public String name() {
    return name;
  }

  /** Its name in result files. */
  public String code() {
    return code;
  }

  /** What it is called at the bench. */
  public String words() {
    return words;
  }

  /** Whether it is this one of its kind. */
  public boolean is(Kind what, String called) {
    return kind == what && name.equals(called);
  }

  @Override
  public boolean equals(Object object) {
    return object instanceof Subject other
        && kind == other.kind
        && name.equals(other.name)
        && code.equals(other.code);
  }

  @Override
  public int hashCode() {
    return Objects.hash(kind, name, code);
  }

  @Override
  public String toString() {
    return code;
  }
}
