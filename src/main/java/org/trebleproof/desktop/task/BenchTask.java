package org.trebleproof.desktop.task;

import java.util.concurrent.CancellationException;
import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/**
 * One piece of work. Its state moves one way only: once it is over, nothing changes it, and what a
 * cancelled task still finds out reaches nobody.
 */
public final class BenchTask {

  /**
   * The work itself, away from the screen's thread.
   *
   * @param <T> what it finds out
   */
  @FunctionalInterface
  public interface Work<T> {
    T run(Ticker ticker) throws Exception;
  }

  private final String title;
  private final Executor screen;
  private final AtomicReference<TaskState> truth = new AtomicReference<>(TaskState.WAITING);
  private final ReadOnlyObjectWrapper<TaskState> state =
      new ReadOnlyObjectWrapper<>(this, "state", TaskState.WAITING);
  private final ReadOnlyDoubleWrapper progress = new ReadOnlyDoubleWrapper(this, "progress", -1);

  BenchTask(String title, Executor screen) {
    this.title = title;
    this.screen = screen;
  }

  /** What is being done, in words. */
  public String title() {
    return title;
  }

  /** The state as the screen knows it. */
  public ReadOnlyObjectProperty<TaskState> stateProperty() {
    return state.getReadOnlyProperty();
  }

  /** 0 to 1, or negative while nothing is known. */
  public ReadOnlyDoubleProperty progressProperty() {
    return progress.getReadOnlyProperty();
  }

  /** Ends the task as soon as it can be; without effect once it is over. */
  public void cancel() {
    become(TaskState.CANCELLED, () -> {});
  }

  /** Moves on, and tells the screen; whether it was still possible. */
  private boolean become(TaskState next, Runnable then) {
    while (true) {
      TaskState now = truth.get();
      if (!now.mayBecome(next)) {
        return false;
      }
      if (truth.compareAndSet(now, next)) {
        screen.execute(
            () -> {
              state.set(next);
              then.run();
            });
        return true;
      }
    }
  }

  private void tick(double share) {
    if (truth.get().over()) {
      throw new CancellationException(title);
    }
    screen.execute(() -> progress.set(share));
  }

  /** Runs the work on the calling thread and hands its outcome to the screen. */
  <T> void run(Work<T> work, Consumer<T> done, Consumer<String> failed) {
    if (!become(TaskState.RUNNING, () -> {})) {
      return;
    }
    try {
      T found = work.run(this::tick);
      become(TaskState.FINISHED, () -> done.accept(found));
    } catch (CancellationException e) {
      cancel();
    } catch (Exception | OutOfMemoryError e) {
      become(TaskState.FAILED, () -> failed.accept(sentence(e)));
    }
  }

  /** What a person reads: a refusal as it stands, anything else as the surprise that it is. */
  public static String sentence(Throwable e) {
    for (Throwable cause = e; cause != null; cause = cause.getCause()) {
      if (cause instanceof Refusal) {
        return cause.getMessage();
      }
      if (cause instanceof OutOfMemoryError) {
        return Texts.of("task.memory");
      }
    }
    StackTraceElement[] trace = e.getStackTrace();
    String place = trace.length == 0 ? "" : trace[0].getFileName() + ":" + trace[0].getLineNumber();
    return Texts.of("task.surprise", String.valueOf(e).replaceAll("\\s+", " "), place);
  }
}
