package org.trebleproof.desktop.work;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import java.util.function.Function;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.task.LatestAnswer;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.words.Headline;
import org.trebleproof.shelf.evening.CoilTask;
import org.trebleproof.shelf.evening.CoilWork;
import org.trebleproof.shelf.evening.EveningListener;
import org.trebleproof.shelf.evening.EveningRun;
import org.trebleproof.shelf.item.Circumstances;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilQuery;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;

/**
 * The shelf as it is looked at: all coils without their curves, those that a filter leaves in an
 * order, and the curves of those that are in sight. The store is opened when the shelf is first
 * looked at, and asked by one thread alone.
 */
public final class CoilShelf implements AutoCloseable {

  /** Curves that are at hand without asking; several screens full. */
  private static final int AT_HAND = 600;

  /** Rows that went by in a fast scroll are asked for no more. */
  private static final int MOST_WAITING = 80;

  /** What is left, and of how many. */
  public record Shown(List<ShelvedCoil> coils, int all) {
    public static final Shown NONE = new Shown(List.of(), 0);

    public Shown {
      coils = List.copyOf(coils);
    }
  }

  /** What became of one recording, and whether a good coil of it is on the shelf. */
  public record Added(boolean good, String words) {}

  private record Question(List<ShelvedCoil> all, String filter, CoilQuery.Order order) {}

  private record Waiting(ShelvedCoil coil, Consumer<Optional<CoilCurve>> told) {}

  private final ShelfAddress address;
  private final Executor reader;
  private final Executor screen;
  private final LatestAnswer<Question, Answer> filtering;
  private final Deque<Waiting> waiting = new ArrayDeque<>();
  private final Map<String, Optional<CoilCurve>> atHand =
      new LinkedHashMap<>(AT_HAND, 0.75f, true) {
        private static final long serialVersionUID = 1;

        @Override
        protected boolean removeEldestEntry(Map.Entry<String, Optional<CoilCurve>> eldest) {
          return size() > AT_HAND;
        }
      };
  private final ReadOnlyObjectWrapper<Shown> shown =
      new ReadOnlyObjectWrapper<>(this, "shown", Shown.NONE);
  private final ReadOnlyObjectWrapper<Optional<String>> problem =
      new ReadOnlyObjectWrapper<>(this, "problem", Optional.empty());
  private List<ShelvedCoil> all = List.of();
  private String filter = "";
  private CoilQuery.Order order = CoilQuery.Order.BY_NAME;
  private ShelfStore store;

  private record Answer(Optional<Shown> shown, String problem) {}

  /**
   * A shelf that nobody has looked at yet.
   *
   * @param reader runs one thing after the other, away from the screen
   */
  public CoilShelf(ShelfAddress address, Executor reader, Executor screen) {
    this.address = address;
    this.reader = reader;
    this.screen = screen;
    filtering = new LatestAnswer<>(reader, CoilShelf::answer, screen, this::take);
  }

  /** What is to be seen. */
  public ReadOnlyObjectProperty<Shown> shownProperty() {
    return shown.getReadOnlyProperty();
  }

  /** What is wrong with the shelf or the filter. */
  public ReadOnlyObjectProperty<Optional<String>> problemProperty() {
    return problem.getReadOnlyProperty();
  }

  /** Where it is, in words. */
  public String words() {
    return address.words();
  }

  /** Reads what is on it now; where there is none, none is made. */
  public void look() {
    asked(
        s -> s.measurements(false),
        found -> {
          synchronized (atHand) {
            atHand.clear();
          }
          all = found;
          find();
        });
  }

  /**
   * Measures recordings of coils alone, one after the other, and puts each on the shelf; a file
   * that cannot be used never stops the rest. Where there is no shelf, one is made.
   *
   * @param like a job that says how they were recorded, and at which bench
   * @param version of the program
   * @param told of each what became of it
   */
  public void add(List<Path> recordings, JobDraft like, String version, Consumer<Added> told) {
    reader.execute(
        () -> {
          try {
            store = store == null ? ShelfStore.open(address) : store;
            new EveningRun(
                    store,
                    new CoilWork(version, ResultJson::of, Headline::ofFit),
                    new EveningRun.Said(
                        false,
                        "",
                        List.of(),
                        "",
                        new Circumstances(like.heading("bench"), "", "", OptionalDouble.empty())),
                    Math.max(1, Runtime.getRuntime().availableProcessors() - 1),
                    System::nanoTime,
                    new Evening(told))
                .run(
                    recordings.stream()
                        .map(r -> new CoilTask(r, stem(r), false, () -> like.bareCoil(r)))
                        .toList());
            screen.execute(this::look);
          } catch (Refusal e) {
            screen.execute(() -> problem.set(Optional.of(e.getMessage())));
          }
        });
  }

  private static String stem(Path file) {
    return String.valueOf(file.getFileName()).replaceFirst("(.)\\.[^.]*$", "$1");
  }

  /** Says on the screen's thread how it goes. */
  private final class Evening implements EveningListener {
    private final Consumer<Added> told;

    Evening(Consumer<Added> told) {
      this.told = told;
    }

    private void say(boolean good, String what, Standing standing) {
      String words = Texts.of("shelf.added", standing.done(), standing.all(), what);
      screen.execute(() -> told.accept(new Added(good, words)));
    }

    @Override
    public void kept(Path file, String name, CoilAnswer answer, Standing standing) {
      say(
          answer.state() == CoilState.GOOD,
          name + ", " + answer.state().word() + ". " + answer.reason(),
          standing);
    }

    @Override
    public void known(Path file, String name, Standing standing) {
      say(true, Texts.of("shelf.known", file.getFileName(), name), standing);
    }

    @Override
    public void unusable(Path file, String why, Standing standing) {
      say(false, Texts.of("shelf.unusable", file.getFileName(), why), standing);
    }
  }

  private <T> void asked(Function<ShelfStore, T> question, Consumer<T> told) {
    reader.execute(
        () -> {
          try {
            Optional<ShelfStore> there = opened();
            if (there.isPresent()) {
              T answer = question.apply(there.get());
              screen.execute(() -> told.accept(answer));
            }
          } catch (Refusal e) {
            screen.execute(() -> problem.set(Optional.of(e.getMessage())));
          }
        });
  }

  private Optional<ShelfStore> opened() {
    if (store == null && address.file().filter(f -> !Files.exists(f)).isEmpty()) {
      store = ShelfStore.existing(address);
    }
    return Optional.ofNullable(store);
  }

  /** Leaves only what a text asks for; see {@link CoilFilter}. */
  public void filter(String text) {
    filter = text;
    find();
  }

  /** Puts them in an order. */
  public void sort(CoilQuery.Order by) {
    order = by;
    find();
  }

  private void find() {
    filtering.ask(new Question(all, filter, order));
  }

  private static Answer answer(Question question) {
    try {
      CoilFilter filter = CoilFilter.of(question.filter());
      List<ShelvedCoil> left = filter.of(question.all(), question.order());
      long coils = question.all().stream().map(ShelvedCoil::name).distinct().count();
      return new Answer(Optional.of(new Shown(left, (int) coils)), "");
    } catch (Refusal e) {
      return new Answer(Optional.empty(), e.getMessage());
    }
  }

  private void take(Answer answer) {
    answer.shown().ifPresent(shown::set);
    problem.set(Optional.of(answer.problem()).filter(p -> !p.isEmpty()));
  }

  /**
   * Tells the curve of a coil on the screen's thread, at once where it is at hand; the last asked
   * for is read first.
   */
  public void curve(ShelvedCoil coil, Consumer<Optional<CoilCurve>> told) {
    Optional<CoilCurve> known = known(coil);
    if (known != null) {
      told.accept(known);
      return;
    }
    synchronized (waiting) {
      waiting.addFirst(new Waiting(coil, told));
      if (waiting.size() > MOST_WAITING) {
        waiting.removeLast();
      }
    }
    reader.execute(this::readNext);
  }

  private Optional<CoilCurve> known(ShelvedCoil coil) {
    synchronized (atHand) {
      return atHand.get(coil.measurement());
    }
  }

  private void readNext() {
    Waiting next;
    synchronized (waiting) {
      next = waiting.pollFirst();
    }
    if (next != null) {
      try {
        Optional<CoilCurve> curve = read(next.coil());
        screen.execute(() -> next.told().accept(curve));
      } catch (Refusal e) {
        screen.execute(() -> problem.set(Optional.of(e.getMessage())));
      }
    }
  }

  private Optional<CoilCurve> read(ShelvedCoil coil) {
    Optional<CoilCurve> known = known(coil);
    if (known == null) {
      known = opened().flatMap(s -> s.curve(coil.measurement()));
      synchronized (atHand) {
        atHand.put(coil.measurement(), known);
      }
    }
    return known;
  }

  /**
   * Coils with their curves; waits for them, so not for the screen's thread.
   *
   * @throws Refusal if the shelf cannot be read
   */
  public List<ShelvedCoil> withCurves(List<ShelvedCoil> coils) {
    try {
      return CompletableFuture.supplyAsync(
              () -> coils.stream().map(c -> c.with(read(c))).toList(), reader)
          .join();
    } catch (CompletionException e) {
      if (e.getCause() instanceof Refusal refusal) {
        throw refusal;
      }
      throw e;
    }
  }

  /** The same for the screen's thread, told later. */
  public void curves(List<ShelvedCoil> coils, Consumer<List<ShelvedCoil>> told) {
    asked(s -> coils.stream().map(c -> c.with(read(c))).toList(), told);
  }

  @Override
  public void close() {
    reader.execute(
        () -> {
          if (store != null) {
            store.close();
            store = null;
          }
        });
  }
}
