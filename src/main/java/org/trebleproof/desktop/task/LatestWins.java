package org.trebleproof.desktop.task;

import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;

/**
 * Work that is asked for again and again while a control moves: only the latest request counts. A
 * request waits a moment for a later one; a running one is cancelled by the next.
 */
public final class LatestWins {

  /** Runs something after a pause on the screen's thread. */
  @FunctionalInterface
  public interface Pause {
    void then(double seconds, Runnable action);
  }

  private final TaskBoard board;
  private final Pause pause;
  private final double wait;
  private final AtomicReference<Object> latest = new AtomicReference<>();
  private BenchTask running;

  /**
   * A channel for one kind of work.
   *
   * @param wait for a later request [s]
   */
  public LatestWins(TaskBoard board, Pause pause, double wait) {
    this.board = board;
    this.pause = pause;
    this.wait = wait;
  }

  /** Asks for work, instead of whatever was asked for before. On the screen's thread. */
  public <T> void ask(
      String title, BenchTask.Work<T> work, Consumer<T> done, Consumer<String> failed) {
    Object request = new Object();
    latest.set(request);
    if (running != null) {
      running.cancel();
    }
    pause.then(
        wait,
        () -> {
          if (latest.get() == request) {
            running = board.start(title, work, done, failed);
          }
        });
  }

  /** Wants nothing any more. */
  public void forget() {
    latest.set(null);
    if (running != null) {
      running.cancel();
    }
  }

  /** A pause that is none, for places without a clock. */
  public static Pause atOnce(Executor screen) {
    return (seconds, action) -> screen.execute(action);
  }
}
