package org.trebleproof.desktop.work;

import java.util.Map;
import java.util.Optional;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;

/**
 * The next mod on trial: what is changed about the guitar, and what that would do. The prediction
 * follows every move with few random guitars, and with many once the hand rests. What is tried is
 * an edit of the job like any other, once the hand rests.
 */
public final class Trial {

  /** Enough for a band that moves along [number of random guitars]. */
  private static final int DRAWS_IN_MOTION = 300;

  /** Name of the layout with the changes. */
  static final String THEN = OwnName.of("then");

  /** What is predicted: the guitar with the layout that is tried. */
  public record Tried(SignalChain chain, Layout now, Layout then, Prediction prediction) {}

  private final Workbench bench;
  private Optional<WorkedOut> told = Optional.empty();
  private final LatestWins moving;
  private final LatestWins resting;
  private final ReadOnlyObjectWrapper<Optional<SignalChain>> chain =
      new ReadOnlyObjectWrapper<>(this, "chain", Optional.empty());
  private final ReadOnlyObjectWrapper<Map<String, String>> changes =
      new ReadOnlyObjectWrapper<>(this, "changes", Map.of());
  private final ReadOnlyObjectWrapper<Optional<Tried>> tried =
      new ReadOnlyObjectWrapper<>(this, "tried", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<String>> problem =
      new ReadOnlyObjectWrapper<>(this, "problem", Optional.empty());

  /** A trial on what lies on the bench. */
  public Trial(Workbench bench, TaskBoard board, LatestWins.Pause pause) {
    this.bench = bench;
    this.moving = new LatestWins(board, pause, 0.02);
    this.resting = new LatestWins(board, pause, 0.5);
    bench
        .verdictProperty()
        .addListener(
            (o, old, now) -> {
              told = now;
              show(now.flatMap(WorkedOut::chain));
            });
    bench
        .draftProperty()
        .addListener((o, old, now) -> now.ifPresent(d -> change(d.plan(planName()))));
  }

  /** The guitar as measured; empty while no model stands. */
  public ReadOnlyObjectProperty<Optional<SignalChain>> chainProperty() {
    return chain.getReadOnlyProperty();
  }

  /** What is changed. */
  public ReadOnlyObjectProperty<Map<String, String>> changesProperty() {
    return changes.getReadOnlyProperty();
  }

  /** What that would do; empty while it is worked out for the first time, or cannot be. */
  public ReadOnlyObjectProperty<Optional<Tried>> triedProperty() {
    return tried.getReadOnlyProperty();
  }

  /** Why it cannot be worked out. */
  public ReadOnlyObjectProperty<Optional<String>> problemProperty() {
    return problem.getReadOnlyProperty();
  }

  /** The guitar's wiring as it is now. */
  public Optional<Layout> now() {
    return chain.get().map(c -> c.layout(Optional.empty()));
  }

  private static String planName() {
    return Texts.of("whatif.plan");
  }

  /** Puts another guitar on trial, or none. */
  void show(Optional<SignalChain> guitar) {
    chain.set(guitar);
    if (guitar.isEmpty()) {
      moving.forget();
      resting.forget();
      tried.set(Optional.empty());
    } else {
      bench.draftProperty().get().ifPresent(d -> changes.set(d.plan(planName())));
      predict();
    }
  }

  /** Changes the guitar on trial; all changes there are, in order. */
  public void change(Map<String, String> all) {
    if (!all.equals(changes.get())) {
      changes.set(all);
      if (chain.get().isPresent()) {
        predict();
      }
    }
  }

  private void predict() {
    SignalChain guitar = chain.get().orElseThrow();
    Map<String, String> wanted = changes.get();
    Optional<WorkedOut> said = told;
    moving.ask(
        Texts.of("task.predict"),
        ticker -> predicted(guitar, wanted, DRAWS_IN_MOTION, said),
        this::found,
        this::failed);
    resting.ask(
        Texts.of("task.predict"),
        ticker -> predicted(guitar, wanted, Predictor.USUAL_DRAWS, said),
        settled -> {
          found(settled);
          bench.edit(Texts.of("edit.trial"), d -> d.withPlan(planName(), guitar.current(), wanted));
        },
        this::failed);
  }

  private static Tried predicted(
      SignalChain guitar, Map<String, String> changes, int draws, Optional<WorkedOut> said) {
    Layout now = guitar.layout(Optional.empty());
    SignalChain changed = guitar.with(THEN, now, changes);
    Layout then = changed.layout(Optional.of(THEN));
    Prediction prediction =
        new Predictor(changed, now, then, draws, part -> said.flatMap(v -> v.reading(part)))
            .predict();
    return new Tried(changed, now, then, said.map(v -> v.toldOf(prediction)).orElse(prediction));
  }

  private void found(Tried outcome) {
    problem.set(Optional.empty());
    tried.set(Optional.of(outcome));
  }

  private void failed(String sentence) {
    tried.set(Optional.empty());
    problem.set(Optional.of(sentence));
  }
}
