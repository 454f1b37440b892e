package org.trebleproof.desktop.task;

import java.util.concurrent.Executor;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import java.util.function.Function;

/**
 * Answers questions that come faster than they can be answered, away from the screen's thread: one
 * at a time, and of those that wait only the latest. An answer that was overtaken is still given,
 * so that a curve slides while a hand moves; it is never given after a later one.
 *
 * @param <Q> a question
 * @param <A> its answer
 */
public final class LatestAnswer<Q, A> {

  private static final long IDLE_SECONDS = 5;

  private final AtomicReference<Q> waiting = new AtomicReference<>();
  private final Function<Q, A> work;
  private final Executor screen;
  private final Consumer<A> answer;
  private final Executor worker;

  /**
   * A desk.
   *
   * @param work finds the answer, away from the screen; null for none
   * @param screen where answers are given
   */
  public LatestAnswer(String name, Function<Q, A> work, Executor screen, Consumer<A> answer) {
    this(oneThread(name), work, screen, answer);
  }

  /**
   * A desk.
   *
   * @param worker where answers are found, one at a time
   * @param work finds the answer; null for none
   * @param screen where answers are given
   */
  public LatestAnswer(Executor worker, Function<Q, A> work, Executor screen, Consumer<A> answer) {
    this.work = work;
    this.screen = screen;
    this.answer = answer;
    this.worker = worker;
  }

  /** A thread that is there only while there is work. */
  public static Executor oneThread(String name) {
    ThreadPoolExecutor one =
        new ThreadPoolExecutor(
            1,
            1,
            IDLE_SECONDS,
            TimeUnit.SECONDS,
            new LinkedBlockingQueue<>(),
            run -> {
              Thread thread = new Thread(run, name);
              thread.setDaemon(true);
              return thread;
            });
    one.allowCoreThreadTimeOut(true);
    return one;
  }

  /** Asks; what still waits is forgotten. */
  public void ask(Q question) {
    if (waiting.getAndSet(question) == null) {
      worker.execute(this::next);
    }
  }

  private void next() {
    Q question = waiting.getAndSet(null);
    if (question != null) {
      A found = work.apply(question);
      if (found != null) {
        screen.execute(() -> answer.accept(found));
      }
    }
  }
}
