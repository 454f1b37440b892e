package org.trebleproof.quantity;

import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * What findings come to: whether the numbers stand, and the cause before what only follows from it.
 * Whoever shows a result, or ends with an exit code, asks here and does not look at findings by
 * itself.
 */
public final class Verdict {

  /** Nothing to be told. */
  public static final Verdict CLEAR = new Verdict(List.of());

  /** What is left of the numbers. */
  public enum Standing {
    STANDS,
    PARTLY_WITHDRAWN,
    REFUSED;

    /** The word used in result files. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
  }

  private final List<Finding> findings;
  private final List<Finding> told;
  private final Standing standing;
  private final boolean curvesStand;
  private final Set<RowKey> withdrawn = new HashSet<>();

  /** The verdict on these findings, in whatever order they were found. */
  public Verdict(Collection<Finding> found) {
    List<Finding> all = found.stream().distinct().toList();
    Set<Finding> explained = new HashSet<>();
    for (Finding f : all) {
      if (all.stream().anyMatch(cause -> outranks(cause, f))) {
        explained.add(f);
      }
    }
    findings =
        all.stream()
            .sorted(
                Comparator.comparing(Finding::severity)
                    .reversed()
                    .thenComparing(explained::contains)
                    .thenComparing(f -> error(f) && !refuses(f))
                    .thenComparing(f -> error(f) ? f.code().ordinal() : 0))
            .toList();
    told = findings.stream().filter(f -> !explained.contains(f)).toList();
    List<Finding> errors = findings.stream().filter(Verdict::error).toList();
    errors.forEach(f -> withdrawn.addAll(f.keys()));
    standing =
        errors.stream().anyMatch(Verdict::refuses)
            ? Standing.REFUSED
            : withdrawn.isEmpty() ? Standing.STANDS : Standing.PARTLY_WITHDRAWN;
    curvesStand =
        errors.stream().allMatch(f -> f.code().withdraws() == FindingCode.Withdraws.PART_VALUES);
  }

  /** A graver finding hides what follows from it, a milder one does not. */
  private static boolean outranks(Finding cause, Finding other) {
    return cause.severity().compareTo(other.severity()) >= 0 && cause.explains(other);
  }

  private static boolean error(Finding f) {
    return f.severity() == Finding.Severity.ERROR;
  }

  private static boolean refuses(Finding f) {
    return error(f)
        && f.keys().isEmpty()
        && f.code().withdraws() != FindingCode.Withdraws.RECORDING;
  }

  public Standing standing() {
    return standing;
  }

  /** Whether nothing is withdrawn. */
  public boolean stands() {
    return standing == Standing.STANDS;
  }

  /** Whether everything is withdrawn. */
  public boolean refused() {
    return standing == Standing.REFUSED;
  }

  /** Whether a row is withdrawn. */
  public boolean withdraws(RowKey key) {
    return refused() || withdrawn.contains(key);
  }

  /** Whether the fitted curves stand, though the values of single parts may not. */
  public boolean curvesStand() {
    return curvesStand;
  }

  /** The likeliest cause of what is withdrawn. */
  public Optional<Finding> cause() {
    return errors().stream().findFirst();
  }

  /** All findings: the gravest first, of these the causes first. */
  public List<Finding> findings() {
    return findings;
  }

  /** The errors that follow from no other, the likeliest cause first. */
  public List<Finding> errors() {
    return told(Finding.Severity.ERROR);
  }

  /** The warnings that follow from nothing else that was found. */
  public List<Finding> warnings() {
    return told(Finding.Severity.WARNING);
  }

  /** The notes that follow from nothing else that was found. */
  public List<Finding> notes() {
    return told(Finding.Severity.INFO);
  }

  /** Errors and warnings that follow from nothing else that was found. */
  public List<Finding> toMind() {
    return told.stream().filter(f -> f.severity() != Finding.Severity.INFO).toList();
  }

  private List<Finding> told(Finding.Severity severity) {
    return told.stream().filter(f -> f.severity() == severity).toList();
  }

  /** The errors about one recording, causes first. */
  public List<Finding> errorsOf(String capture) {
    return errors().stream().filter(f -> f.captures().contains(capture)).toList();
  }

  @Override
  public boolean equals(Object other) {
    return other instanceof Verdict verdict && findings.equals(verdict.findings);
  }

  @Override
  public int hashCode() {
    return findings.hashCode();
  }

  @Override
  public String toString() {
    return standing.word() + " " + findings;
  }
}
