package org.trebleproof.bench.answer;

import java.util.Arrays;
import java.util.Collection;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;

/**
 * The rows of a result, or some of them, in the order a person reads them.
 *
 * @param list all of them
 */
public record Rows(List<FitResult.Row> list) implements Iterable<FitResult.Row> {

  public static final Rows NONE = new Rows(List.of());

  public Rows {
    list = List.copyOf(list);
  }

  /** Those of a pickup's coil, by the pickup's name in the job. */
  public Rows coil(String pickup) {
    return about(s -> s.is(Subject.Kind.COIL, pickup));
  }

  /** Those of a setup. */
  public Rows setup(String name) {
    return about(s -> s.is(Subject.Kind.SETUP, name));
  }

  /** Those of a part. */
  public Rows part(String name) {
    return about(s -> s.is(Subject.Kind.PART, name));
  }

  /** Those of all parts. */
  public Rows parts() {
    return about(s -> s.kind() == Subject.Kind.PART);
  }

  /** Those about one subject. */
  public Rows about(Subject subject) {
    return about(subject::equals);
  }

  private Rows about(Predicate<Subject> which) {
    return where(row -> which.test(row.key().subject()));
  }

  /** Those of one of these quantities. */
  public Rows of(Quantity... quantities) {
    Collection<Quantity> wanted = Arrays.asList(quantities);
    return where(row -> wanted.contains(row.key().quantity()));
  }

  /** Those of one rank. */
  public Rows of(Quantity.Rank rank) {
    return where(row -> row.key().quantity().rank() == rank);
  }

  /** Those that a text means, such as {@code before.resonance} or {@code loadResistance}. */
  public Rows meantBy(String text) {
    return where(row -> row.key().meantBy(text));
  }

  private Rows where(Predicate<FitResult.Row> which) {
    return new Rows(list.stream().filter(which).toList());
  }

  /** The row of a key. */
  public Optional<FitResult.Row> row(RowKey key) {
    return list.stream().filter(row -> row.key().equals(key)).findFirst();
  }

  /** The estimate of a key; empty when it is absent or withdrawn. */
  public Optional<Estimate> estimate(RowKey key) {
    return row(key).flatMap(FitResult.Row::estimate);
  }

  /** The first estimate of a quantity; empty when it is absent or withdrawn. */
  public Optional<Estimate> estimate(Quantity quantity) {
    return of(quantity).first();
  }

  /** The first row's estimate; empty when it is absent or withdrawn. */
  public Optional<Estimate> first() {
    return list.stream().findFirst().flatMap(FitResult.Row::estimate);
  }

  /** Every estimate that was not withdrawn. */
  public Stream<Estimate> estimates() {
    return list.stream().flatMap(row -> row.estimate().stream());
  }

  /** What they are about, each once. */
  public List<Subject> subjects() {
    return list.stream().map(row -> row.key().subject()).distinct().toList();
  }

  /** The coils they are about, each once. */
  public List<Subject> coils() {
    return subjects().stream().filter(s -> s.kind() == Subject.Kind.COIL).toList();
  }

  public List<RowKey> keys() {
    return list.stream().map(FitResult.Row::key).toList();
  }

  /** The same rows, each changed. */
  public Rows map(UnaryOperator<FitResult.Row> change) {
    return new Rows(list.stream().map(change).toList());
  }

  /** The same rows without the estimates of some. */
  public Rows withdrawn(Predicate<RowKey> which) {
    return map(row -> which.test(row.key()) ? row.withdrawn() : row);
  }

  public boolean isEmpty() {
    return list.isEmpty();
  }

  public Stream<FitResult.Row> stream() {
    return list.stream();
  }

  @Override
  public Iterator<FitResult.Row> iterator() {
    return list.iterator();
  }
}
