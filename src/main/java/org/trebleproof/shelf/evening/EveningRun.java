package org.trebleproof.shelf.evening;

import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CompletionService;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorCompletionService;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.function.LongSupplier;
import org.trebleproof.audio.RecordingDate;
import org.trebleproof.bench.job.Job;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.evening.EveningListener.Standing;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilName;
import org.trebleproof.shelf.item.NewCoil;
import org.trebleproof.shelf.store.ShelfStore;

/**
 * A heap of coils measured one after the other, on several threads, and put on the shelf each as
 * soon as it is measured. What could not be used never stops the rest; what is on the shelf already
 * is passed over, so that an evening that broke off goes on where it was. Names are given out in
 * the order of the files, whichever is done first.
 */
public final class EveningRun {

  private final ShelfStore store;
  private final CoilWork work;
  private final Said said;
  private final int threads;
  private final LongSupplier nanos;
  private final EveningListener listener;

  /** Names of this evening's coils by their recordings, also before they are on the shelf. */
  private final Map<String, String> begun = new HashMap<>();

  /**
   * What was said of all coils.
   *
   * @param again whether coils of these names are measured once more
   */
  public record Said(
      boolean again, String recipe, List<String> tags, String notes, Circumstances circumstances) {}

  /** What is worked out on a thread: a coil ready to be kept, or why not. */
  private record Done(
      CoilTask task,
      Optional<NewCoil> coil,
      Optional<CoilAnswer> answer,
      String why,
      String known) {}

  /**
   * An evening.
   *
   * @param nanos a clock [ns]
   */
  public EveningRun(
      ShelfStore store,
      CoilWork work,
      Said said,
      int threads,
      LongSupplier nanos,
      EveningListener listener) {
    this.store = store;
    this.work = work;
    this.said = said;
    this.threads = threads;
    this.nanos = nanos;
    this.listener = listener;
  }

  /**
   * Measures all of them.
   *
   * @return how many could not be used
   */
  public int run(List<CoilTask> tasks) {
    ExecutorService pool = Executors.newFixedThreadPool(threads, EveningRun::thread);
    try {
      return run(tasks, new ExecutorCompletionService<>(pool));
    } finally {
      pool.shutdownNow();
    }
  }

  static Thread thread(Runnable work) {
    Thread thread = new Thread(work, "coil");
    thread.setDaemon(true);
    return thread;
  }

  private int run(List<CoilTask> tasks, CompletionService<Done> service) {
    Set<String> taken = new TreeSet<>(store.names());
    begun.clear();
    Deque<CoilTask> waiting = new ArrayDeque<>(tasks);
    int under = 0;
    int done = 0;
    int unusable = 0;
    int measured = 0;
    long begun = nanos.getAsLong();
    while (done < tasks.size()) {
      // No more than is worked on, so that memory stays flat however many files there are.
      while (under < threads + 1 && !waiting.isEmpty()) {
        Optional<Done> at = begin(waiting.remove(), taken, service);
        if (at.isEmpty()) {
          under++;
          continue;
        }
        done++;
        unusable += tell(at.get(), standing(done, tasks.size(), measured, begun)) ? 0 : 1;
      }
      if (under > 0) {
        Done next = next(service);
        under--;
        done++;
        measured++;
        unusable += keep(next, standing(done, tasks.size(), measured, begun)) ? 0 : 1;
      }
    }
    return unusable;
  }

  private Standing standing(int done, int all, int measured, long begun) {
    double left =
        measured < 1 ? Double.NaN : (nanos.getAsLong() - begun) * 1e-9 / measured * (all - done);
    return new Standing(done, all, left);
  }

  /** Begins a coil on a thread; what is known or unusable at once is handed back. */
  private Optional<Done> begin(CoilTask task, Set<String> taken, CompletionService<Done> service) {
    try {
      NewMeasurement measurement = NewMeasurement.of(task.file(), task.content().get());
      NewCoil coil = coil(measurement, CoilName.checked(task.name()));
      Optional<String> before =
          Optional.ofNullable(begun.get(coil.recordings()))
              .or(() -> store.measuredBy(coil.recordings()));
      if (before.isPresent()) {
        return Optional.of(new Done(task, Optional.empty(), Optional.empty(), "", before.get()));
      }
      NewCoil named = said.again() ? coil : coil.named(name(task, coil.name(), taken));
      taken.add(named.name());
      begun.put(coil.recordings(), named.name());
      Job job = measurement.job();
      OptionalDouble celsius = said.circumstances().celsius();
      service.submit(() -> worked(task, named, job, celsius));
      return Optional.empty();
    } catch (Refusal e) {
      return Optional.of(refused(task, e.getMessage()));
    }
  }

  private String name(CoilTask task, String wanted, Set<String> taken) {
    String free = CoilName.free(wanted, taken);
    if (task.exact() && !free.equals(wanted)) {
      throw new Refusal(
          "there is a coil "
              + Refusal.quote(wanted)
              + " on the shelf: \""
              + free
              + "\" is free, or add --again if it is the same coil.");
    }
    return free;
  }

  private NewCoil coil(NewMeasurement measurement, String name) {
    return measurement.coil(
        name,
        said.again(),
        said.recipe(),
        said.tags(),
        said.notes(),
        dated(said.circumstances(), measurement.job()));
  }

  /** Where nobody said a date, the recording's own counts; else today. */
  static Circumstances dated(Circumstances c, Job job) {
    if (!c.date().isEmpty()) {
      return c;
    }
    LocalDate day =
        job.captures().stream()
            .flatMap(capture -> RecordingDate.of(capture.file()).stream())
            .map(RecordingDate::day)
            .findFirst()
            .orElseGet(LocalDate::now);
    return new Circumstances(c.bench(), c.who(), day.toString(), c.celsius());
  }

  private Done worked(CoilTask task, NewCoil coil, Job job, OptionalDouble celsius) {
    try {
      return new Done(task, Optional.of(coil), Optional.of(work.of(job, celsius)), "", "");
    } catch (Refusal e) {
      return refused(task, e.getMessage());
    } catch (OutOfMemoryError e) {
      return refused(
          task,
          "there was not enough memory for it: start with more, such as TREBLEPROOF_OPTS=-Xmx2g.");
    } catch (RuntimeException e) {
      return refused(task, "this should not happen, please report it with the file: " + e);
    }
  }

  private static Done refused(CoilTask task, String why) {
    return new Done(task, Optional.empty(), Optional.empty(), why, "");
  }

  private static Done next(CompletionService<Done> service) {
    try {
      return service.take().get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Refusal("interrupted: what was said to be on the shelf is there.", e);
    } catch (ExecutionException e) {
      throw new IllegalStateException(e.getCause());
    }
  }

  /** Whether it could be used. */
  private boolean keep(Done done, Standing standing) {
    if (done.coil().isEmpty() || done.answer().isEmpty()) {
      return tell(done, standing);
    }
    NewCoil coil = done.coil().get();
    CoilAnswer answer = done.answer().get();
    try {
      listener.kept(done.task().file(), store.add(coil, answer), answer, standing);
      return true;
    } catch (Refusal e) {
      // Another process was here meanwhile.
      Optional<String> before = store.measuredBy(coil.recordings());
      if (before.isPresent()) {
        listener.known(done.task().file(), before.get(), standing);
        return true;
      }
      boolean nameGone = !said.again() && store.names().contains(coil.name());
      if (nameGone && !done.task().exact()) {
        String other = CoilName.free(coil.name(), store.names());
        return keep(
            new Done(done.task(), Optional.of(coil.named(other)), done.answer(), "", ""), standing);
      }
      if (!nameGone) {
        throw e; // the store itself takes nothing: there is no use in going on
      }
      return tell(refused(done.task(), e.getMessage()), standing);
    }
  }

  private boolean tell(Done done, Standing standing) {
    if (!done.known().isEmpty()) {
      listener.known(done.task().file(), done.known(), standing);
      return true;
    }
    listener.unusable(done.task().file(), done.why(), standing);
    return false;
  }
}
