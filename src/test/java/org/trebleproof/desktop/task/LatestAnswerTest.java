package org.trebleproof.desktop.task;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;

/** Questions that come faster than they are answered. */
class LatestAnswerTest {

  @Test
  void onlyTheLatestOfThoseThatWaitIsAnswered() throws Exception {
    CountDownLatch started = new CountDownLatch(1);
    CountDownLatch go = new CountDownLatch(1);
    CountDownLatch last = new CountDownLatch(1);
    List<Integer> answered = Collections.synchronizedList(new ArrayList<>());
    LatestAnswer<Integer, Integer> desk =
        new LatestAnswer<>(
            "test",
            q -> {
              started.countDown();
              await(go);
              return q;
            },
            Runnable::run,
            a -> {
              answered.add(a);
              if (a == 50) {
                last.countDown();
              }
            });
    desk.ask(1);
    assertTrue(started.await(5, TimeUnit.SECONDS));
    for (int i = 2; i <= 50; i++) {
      desk.ask(i);
    }
    go.countDown();
    assertTrue(last.await(5, TimeUnit.SECONDS));
    assertEquals(List.of(1, 50), answered);
  }

  @Test
  void aQuestionWithoutAnswerIsPassedOver() throws Exception {
    CountDownLatch last = new CountDownLatch(1);
    LatestAnswer<Integer, Integer> desk =
        new LatestAnswer<>("test", q -> q == 0 ? null : q, Runnable::run, a -> last.countDown());
    desk.ask(0);
    desk.ask(7);
    assertTrue(last.await(5, TimeUnit.SECONDS));
  }

  private static void await(CountDownLatch latch) {
    try {
      latch.await(5, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }
}
