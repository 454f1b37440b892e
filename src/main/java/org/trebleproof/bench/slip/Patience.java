package org.trebleproof.bench.slip;

import java.util.ArrayList;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Function;
import java.util.function.LongSupplier;

/**
 * How long slips are looked for: once that is over nothing further is begun, and what was found so
 * far counts. It runs from when something is first asked for.
 */
public final class Patience {

  /** So many are worked on side by side before the time is looked at again. */
  private static final int AT_ONCE = 8;

  private final LongSupplier nanos;
  private final long limit;
  private OptionalLong since = OptionalLong.empty();
  private boolean lost;

  private Patience(LongSupplier nanos, long limit) {
    this.nanos = nanos;
    this.limit = limit;
  }

  /** Until everything was tried, however long it takes. */
  public static Patience endless() {
    return new Patience(() -> 0, Long.MAX_VALUE);
  }

  /**
   * Patience that ends.
   *
   * @param nanos a clock [ns]
   * @param seconds from when nothing further is begun
   */
  public static Patience of(LongSupplier nanos, double seconds) {
    return new Patience(nanos, Math.round(seconds * 1e9));
  }

  /** Whether something was left undone. */
  boolean lost() {
    return lost;
  }

  private boolean over() {
    if (since.isEmpty()) {
      since = OptionalLong.of(nanos.getAsLong());
    }
    return nanos.getAsLong() - since.getAsLong() > limit;
  }

  /**
   * What comes of each, the first ones first; those it is too late for become {@code otherwise}.
   */
  <T, R> List<R> inTurn(List<T> all, Function<T, List<R>> work, Function<T, List<R>> otherwise) {
    List<R> done = new ArrayList<>();
    for (int from = 0; from < all.size(); from += AT_ONCE) {
      List<T> some = all.subList(from, Math.min(all.size(), from + AT_ONCE));
      boolean late = over();
      lost |= late;
      (late ? some.stream().map(otherwise) : some.parallelStream().map(work))
          .toList()
          .forEach(done::addAll);
    }
    return done;
  }
}
