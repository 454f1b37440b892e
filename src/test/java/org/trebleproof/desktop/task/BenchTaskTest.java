package org.trebleproof.desktop.task;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.RejectedExecutionException;
import org.junit.jupiter.api.Test;
import org.trebleproof.quantity.Refusal;

final class BenchTaskTest {

  private final Queue<Runnable> work = new ArrayDeque<>();
  private final TaskBoard board = new TaskBoard(work::add, Runnable::run);
  private final List<Object> done = new ArrayList<>();
  private final List<String> failed = new ArrayList<>();

  private void workOff() {
    while (!work.isEmpty()) {
      work.remove().run();
    }
  }

  @Test
  void waitsRunsAndFinishes() {
    List<TaskState> states = new ArrayList<>();
    BenchTask task =
        board.start(
            "sum",
            ticker -> {
              ticker.at(0.5);
              return 4;
            },
            done::add,
            failed::add);
    assertEquals(TaskState.WAITING, task.stateProperty().get());
    assertEquals(List.of(task), board.tasks());
    task.stateProperty().addListener((o, old, now) -> states.add(now));
    workOff();
    assertEquals(List.of(TaskState.RUNNING, TaskState.FINISHED), states);
    assertEquals(0.5, task.progressProperty().get());
    assertEquals(List.of(4), done);
    assertTrue(board.tasks().isEmpty());
  }

  @Test
  void aCancelledTaskNeverRuns() {
    BenchTask task = board.start("sum", ticker -> 4, done::add, failed::add);
    task.cancel();
    workOff();
    assertEquals(TaskState.CANCELLED, task.stateProperty().get());
    assertTrue(done.isEmpty());
  }

  @Test
  void whatComesAfterTheWindowHasClosedIsCancelled() {
    TaskBoard closed =
        new TaskBoard(
            r -> {
              throw new RejectedExecutionException();
            },
            Runnable::run);
    BenchTask task = closed.start("sum", ticker -> 4, done::add, failed::add);
    assertEquals(TaskState.CANCELLED, task.stateProperty().get());
    assertTrue(closed.tasks().isEmpty());
    assertTrue(done.isEmpty() && failed.isEmpty());
  }

  @Test
  void cancelledWhileRunningItStopsAtTheNextTickAndStaysCancelled() {
    BenchTask[] task = new BenchTask[1];
    List<String> reached = new ArrayList<>();
    task[0] =
        board.start(
            "sum",
            ticker -> {
              task[0].cancel();
              reached.add("before");
              ticker.at(0.9);
              reached.add("after");
              return 4;
            },
            done::add,
            failed::add);
    workOff();
    assertEquals(List.of("before"), reached);
    assertEquals(TaskState.CANCELLED, task[0].stateProperty().get());
    assertTrue(done.isEmpty() && failed.isEmpty());
  }

  @Test
  void whatIsOverIsNotOverwritten() {
    BenchTask task = board.start("sum", ticker -> 4, done::add, failed::add);
    workOff();
    task.cancel();
    assertEquals(TaskState.FINISHED, task.stateProperty().get());
  }

  @Test
  void aRefusalIsToldAsItStands() {
    board.start(
        "sum",
        ticker -> {
          throw new Refusal("lead.wav is empty: record it again.");
        },
        done::add,
        failed::add);
    workOff();
    assertEquals(List.of("lead.wav is empty: record it again."), failed);
  }

  @Test
  void aSurpriseIsOneSentence() {
    board.start(
        "sum",
        ticker -> {
          throw new IllegalStateException("two\nlines");
        },
        done::add,
        failed::add);
    workOff();
    assertTrue(failed.get(0).contains("two lines"), failed.get(0));
    assertTrue(failed.get(0).endsWith("."), failed.get(0));
  }

  @Test
  void onlyTheLatestRequestCounts() {
    Queue<Runnable> pauses = new ArrayDeque<>();
    LatestWins latest = new LatestWins(board, (s, action) -> pauses.add(action), 0.1);
    latest.ask("first", ticker -> 1, done::add, failed::add);
    latest.ask("second", ticker -> 2, done::add, failed::add);
    while (!pauses.isEmpty()) {
      pauses.remove().run();
    }
    assertEquals(1, board.tasks().size());
    latest.ask("third", ticker -> 3, done::add, failed::add);
    while (!pauses.isEmpty()) {
      pauses.remove().run();
    }
    workOff();
    assertEquals(List.of(3), done);
  }
}
