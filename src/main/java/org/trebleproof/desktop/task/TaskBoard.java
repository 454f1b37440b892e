package org.trebleproof.desktop.task;

import java.util.concurrent.Executor;
import java.util.concurrent.RejectedExecutionException;
import java.util.function.Consumer;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;

/** All work that is under way. What it finds out is told on the screen's thread. */
public final class TaskBoard {

  private final Executor workers;
  private final Executor screen;
  private final ObservableList<BenchTask> tasks = FXCollections.observableArrayList();

  /** One view for all: it is held weakly by the list behind it. */
  private final ObservableList<BenchTask> view = FXCollections.unmodifiableObservableList(tasks);

  /**
   * A board.
   *
   * @param workers run the work
   * @param screen runs what changes properties
   */
  public TaskBoard(Executor workers, Executor screen) {
    this.workers = workers;
    this.screen = screen;
  }

  /** What waits or runs, the oldest first. Changes on the screen's thread. */
  public ObservableList<BenchTask> tasks() {
    return view;
  }

  /** The screen's thread. */
  public Executor screen() {
    return screen;
  }

  /**
   * Starts some work. To be called on the screen's thread.
   *
   * @param title what is being done, in words
   * @param done is handed the outcome
   * @param failed is handed one sentence
   * @param <T> the outcome
   */
  public <T> BenchTask start(
      String title, BenchTask.Work<T> work, Consumer<T> done, Consumer<String> failed) {
    BenchTask task = new BenchTask(title, screen);
    tasks.add(task);
    task.stateProperty()
        .addListener(
            (o, old, now) -> {
              if (now.over()) {
                tasks.remove(task);
              }
            });
    try {
      workers.execute(() -> task.run(work, done, failed));
    } catch (RejectedExecutionException e) {
      // The window is closing: a fit that was due a moment later is wanted no more.
      task.cancel();
    }
    return task;
  }
}
