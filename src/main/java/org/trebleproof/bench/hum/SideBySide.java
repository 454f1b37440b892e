package org.trebleproof.bench.hum;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.BiFunction;

/** Work on the states of a visit that have nothing to do with each other, one processor each. */
final class SideBySide {

  private SideBySide() {}

  /**
   * Works on every state.
   *
   * @param of what to work on
   * @param work what to do; may throw
   * @throws RuntimeException the first in the states' order that the work threw
   */
  static <T, R> Map<HumState, R> map(Map<HumState, T> of, BiFunction<HumState, T, R> work) {
    Map<HumState, R> done = new EnumMap<>(HumState.class);
    new EnumMap<>(of)
        .entrySet().parallelStream()
            .map(entry -> Outcome.of(entry.getKey(), entry.getValue(), work))
            .toList()
            .forEach(outcome -> done.put(outcome.state(), outcome.orThrow()));
    return done;
  }

  private record Outcome<R>(HumState state, R result, Optional<RuntimeException> failure) {

    static <T, R> Outcome<R> of(HumState state, T of, BiFunction<HumState, T, R> work) {
      try {
        return new Outcome<>(state, work.apply(state, of), Optional.empty());
      } catch (RuntimeException e) {
        return new Outcome<>(state, null, Optional.of(e));
      }
    }

    R orThrow() {
      if (failure.isPresent()) {
        throw failure.get();
      }
      return result;
    }
  }
}
