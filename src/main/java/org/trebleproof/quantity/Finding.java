package org.trebleproof.quantity;

import java.util.List;
import java.util.Locale;

/**
 * Something a person should be told.
 *
 * @param severity an error withdraws the estimates it names (none named: all of them)
 * @param code stable lower-case code with hyphens, for scripts
 * @param text one plain sentence: what is the matter, with the file or part it concerns
 * @param evidence the numbers it rests on, in words
 * @param next what to do about it
 * @param keys the rows concerned; empty means all
 */
public record Finding(
    Severity severity, String code, String text, String evidence, String next, List<RowKey> keys) {

  /** How grave a finding is. */
  public enum Severity {
    INFO,
    WARNING,
    ERROR;

    /** The word used in result files. */
    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  public Finding {
    keys = List.copyOf(keys);
  }

  public static Finding error(String code, String text, String evidence, String next) {
    return new Finding(Severity.ERROR, code, text, evidence, next, List.of());
  }

  public static Finding warning(String code, String text, String evidence, String next) {
    return new Finding(Severity.WARNING, code, text, evidence, next, List.of());
  }

  public static Finding info(String code, String text, String evidence, String next) {
    return new Finding(Severity.INFO, code, text, evidence, next, List.of());
  }

  /** The same finding, withdrawing or concerning only these estimates. */
  public Finding about(List<RowKey> rows) {
    return new Finding(severity, code, text, evidence, next, rows);
  }
}
