package org.trebleproof.quantity;

import java.util.List;
import java.util.Locale;

/**
 * Something a person should be told.
 *
 * @param severity an error withdraws the estimates it names (none named: all of them)
 * @param code which finding it is
 * @param text one plain sentence: what is the matter, with the file or part it concerns
 * @param evidence the numbers it rests on, in words
 * @param next what to do about it
 * @param keys the rows concerned; empty means all
 * @param captures the recordings it is about; empty where it is about all of them together
 */
public record Finding(
    Severity severity,
    FindingCode code,
    String text,
    String evidence,
    String next,
    List<RowKey> keys,
    List<String> captures) {

  /** How grave a finding is. */
  public enum Severity {
    INFO("Note"),
    WARNING("Mind"),
    ERROR("Error");

    private final String label;

    Severity(String label) {
      this.label = label;
    }

    /** The word used in result files. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** The word before a sentence. */
    public String label() {
      return label;
    }
  }

  /**
   * @throws IllegalArgumentException where the code's entry rules out that severity, or that only
   *     some estimates are withdrawn
   */
  public Finding {
    keys = List.copyOf(keys);
    captures = List.copyOf(captures);
    if (!code.grade().severities().contains(severity)) {
      throw new IllegalArgumentException(code.key() + " is never of severity " + severity.word());
    }
    if (severity == Severity.ERROR
        && !keys.isEmpty()
        && code.withdraws() != FindingCode.Withdraws.PART_VALUES
        && code.withdraws() != FindingCode.Withdraws.MODEL) {
      throw new IllegalArgumentException(code.key() + " withdraws " + code.withdraws().words());
    }
  }

  /** A finding as grave as its code can be. */
  public static Finding of(FindingCode code, String text, String evidence, String next) {
    return new Finding(
        code.grade().severities().get(0), code, text, evidence, next, List.of(), List.of());
  }

  /** A finding in its milder form. */
  public static Finding milder(FindingCode code, String text, String evidence, String next) {
    List<Severity> severities = code.grade().severities();
    return new Finding(
        severities.get(severities.size() - 1), code, text, evidence, next, List.of(), List.of());
  }

  /** The same finding, withdrawing or concerning only these estimates. */
  public Finding about(List<RowKey> rows) {
    return new Finding(severity, code, text, evidence, next, rows, captures);
  }

  /** The same finding, of these recordings. */
  public Finding in(String... ids) {
    return new Finding(severity, code, text, evidence, next, keys, List.of(ids));
  }

  /** The rows that this one takes back; empty where it takes back all or none. */
  public List<RowKey> withdrawn() {
    return severity == Severity.ERROR ? keys : List.of();
  }

  /** Whether the other may follow from this one: declared of their codes, in one recording. */
  boolean explains(Finding other) {
    return code.explains(other.code)
        && (captures.isEmpty()
            || other.captures.isEmpty()
            || captures.stream().anyMatch(other.captures::contains));
  }
}
