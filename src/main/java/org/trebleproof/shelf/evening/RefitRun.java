package org.trebleproof.shelf.evening;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.folder.CoilFolders;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfStore;

/**
 * Measurements worked out again from the recordings that are kept, on several threads; told in the
 * order in which they were asked for, whichever is done first. No more are under way than are
 * worked on and as many that wait to be told, so that memory stays flat.
 */
public final class RefitRun {

  private final ShelfStore store;
  private final CoilWork work;
  private final int threads;

  /** Is told what became of each, in order and from one thread. */
  public interface Listener {
    /**
     * A measurement was worked out.
     *
     * @param said the result as it was kept before, as result files hold it
     */
    void workedOut(ShelvedCoil before, String said, CoilAnswer now);

    void unusable(ShelvedCoil before, String why);
  }

  /** One that is under way. */
  private record Begun(ShelvedCoil coil, Path folder, Future<CoilAnswer> answer) {}

  public RefitRun(ShelfStore store, CoilWork work, int threads) {
    this.store = store;
    this.work = work;
    this.threads = threads;
  }

  /**
   * Works all of them out; what was said before stays on the shelf beneath.
   *
   * @return how many could not be
   */
  public int run(List<ShelvedCoil> coils, Listener listener) {
    ExecutorService pool = Executors.newFixedThreadPool(threads, EveningRun::thread);
    Deque<Begun> underWay = new ArrayDeque<>();
    int unusable = 0;
    try {
      for (ShelvedCoil coil : coils) {
        if (underWay.size() == 2 * threads) {
          unusable += end(underWay.remove(), listener);
        }
        underWay.add(begin(coil, pool));
      }
      while (!underWay.isEmpty()) {
        unusable += end(underWay.remove(), listener);
      }
      return unusable;
    } finally {
      pool.shutdownNow();
      underWay.forEach(one -> Leftover.remove(one.folder()));
    }
  }

  private Begun begin(ShelvedCoil coil, ExecutorService pool) {
    Path folder;
    try {
      folder = Files.createTempDirectory("trebleproof-shelf");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    try {
      Path own = folder.resolve("coil");
      CoilFolders.writeOne(store, coil, own);
      Job job = JobReader.read(own.resolve("job.json"));
      return new Begun(
          coil, folder, pool.submit(() -> work.of(job, coil.circumstances().celsius())));
    } catch (Refusal e) {
      return new Begun(coil, folder, CompletableFuture.failedFuture(e));
    }
  }

  private int end(Begun one, Listener listener) {
    try {
      CoilAnswer answer = one.answer().get();
      String said = store.kept(one.coil().measurement()).result();
      store.again(one.coil().measurement(), answer);
      listener.workedOut(one.coil(), said, answer);
      return 0;
    } catch (ExecutionException e) {
      listener.unusable(
          one.coil(),
          e.getCause() instanceof Refusal
              ? e.getCause().getMessage()
              : "this should not happen, please report it: " + e.getCause());
      return 1;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Refusal("interrupted: what was told is on the shelf.", e);
    } finally {
      Leftover.remove(one.folder());
    }
  }
}
