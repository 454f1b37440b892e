package org.trebleproof.desktop.work;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.LongSupplier;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.bench.mod.listen.BlindTest;

/**
 * A blind test of the two sounds. The number of trials is fixed beforehand and nothing is told
 * until all are answered: whoever stops when it goes well would prove what is not so. Other sounds
 * end it.
 */
public final class BlindSession {

  /**
   * Where a test stands.
   *
   * @param number of the trial that is to be answered, from 1
   * @param trials in all
   */
  public record Standing(int number, int trials) {}

  private final Listening listening;
  private final LongSupplier seeds;
  private final ReadOnlyObjectWrapper<Optional<Standing>> standing =
      new ReadOnlyObjectWrapper<>(this, "standing", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<BlindTest.Score>> score =
      new ReadOnlyObjectWrapper<>(this, "score", Optional.empty());
  private final List<Boolean> said = new ArrayList<>();
  private BlindTest test;

  /**
   * Tests of what listening has made.
   *
   * @param seeds decide the order of each test, and must not be guessed
   */
  public BlindSession(Listening listening, LongSupplier seeds) {
    this.listening = listening;
    this.seeds = seeds;
    listening
        .soundsProperty()
        .addListener(
            (o, old, now) -> {
              giveUp();
              score.set(Optional.empty());
            });
  }

  /** Where the test stands; empty while there is none. */
  public ReadOnlyObjectProperty<Optional<Standing>> standingProperty() {
    return standing.getReadOnlyProperty();
  }

  /** What the last test came to; empty until one was answered to its end. */
  public ReadOnlyObjectProperty<Optional<BlindTest.Score>> scoreProperty() {
    return score.getReadOnlyProperty();
  }

  /** Begins a test of 1 to 100 trials and plays the first; nothing without sounds. */
  public void begin(int trials) {
    if (listening.soundsProperty().get().isEmpty()) {
      return;
    }
    test = new BlindTest(trials, seeds.getAsLong());
    said.clear();
    score.set(Optional.empty());
    standing.set(Optional.of(new Standing(1, trials)));
    hear();
  }

  /** Plays the unknown sound, as often as wanted. */
  public void hear() {
    standing.get().ifPresent(s -> listening.playUnknown(test.second(s.number() - 1)));
  }

  /** Says which it was, and goes on to the next. */
  public void answer(boolean after) {
    Standing now = standing.get().orElse(null);
    if (now == null) {
      return;
    }
    said.add(after);
    listening.stop();
    if (now.number() < now.trials()) {
      standing.set(Optional.of(new Standing(now.number() + 1, now.trials())));
      hear();
      return;
    }
    standing.set(Optional.empty());
    score.set(Optional.of(test.score(said)));
  }

  /** Ends a test without a result. */
  public void giveUp() {
    if (standing.get().isPresent()) {
      listening.stop();
      standing.set(Optional.empty());
    }
  }
}
