package org.trebleproof.desktop.work;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Collection;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Executor;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyIntegerWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.desktop.draft.Dropped;
import org.trebleproof.desktop.draft.EditHistory;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.draft.KeptSession;
import org.trebleproof.desktop.draft.RecentJobs;
import org.trebleproof.desktop.draft.SessionKeeper;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/**
 * The job on the bench: what is known of it, every edit of it, and what it comes to. Each edit is
 * kept on disk, can be undone, and has the verdict worked out anew; only the latest counts. To be
 * used on the screen's thread.
 */
public final class Workbench {

  private final TaskBoard board;
  private final Executor diskWriter;
  private final SessionKeeper keeper;
  private final RecentJobs recent;
  private final InstantSource clock;
  private final LatestWins fitting;
  private final EditHistory history = new EditHistory();
  private final Map<String, String> typed = new LinkedHashMap<>();
  private final AtomicBoolean typing = new AtomicBoolean();
  private String lastEdit = "";
  private int unsavedEdits;

  private final ReadOnlyObjectWrapper<Optional<JobDraft>> draft =
      new ReadOnlyObjectWrapper<>(this, "draft", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<String>> problem =
      new ReadOnlyObjectWrapper<>(this, "problem", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<WorkedOut>> verdict =
      new ReadOnlyObjectWrapper<>(this, "verdict", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<Fault>> fault =
      new ReadOnlyObjectWrapper<>(this, "fault", Optional.empty());
  private final ReadOnlyIntegerWrapper jobs = new ReadOnlyIntegerWrapper(this, "jobs");
  private final ReadOnlyBooleanWrapper working = new ReadOnlyBooleanWrapper(this, "working");
  private final ReadOnlyObjectWrapper<NextStep> next =
      new ReadOnlyObjectWrapper<>(
          this,
          "next",
          NextStep.of(
              Optional.empty(), Optional.empty(), Optional.empty(), false, Optional.empty()));
  private final ReadOnlyObjectWrapper<Optional<String>> notice =
      new ReadOnlyObjectWrapper<>(this, "notice", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<Instant>> kept =
      new ReadOnlyObjectWrapper<>(this, "kept", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<String>> undoWords =
      new ReadOnlyObjectWrapper<>(this, "undoWords", Optional.empty());
  private final ReadOnlyObjectWrapper<Optional<String>> redoWords =
      new ReadOnlyObjectWrapper<>(this, "redoWords", Optional.empty());

  /**
   * A bench with nothing on it.
   *
   * @param diskWriter runs one thing after the other, away from the screen
   * @param pause before a refit
   */
  public Workbench(
      TaskBoard board,
      Executor diskWriter,
      SessionKeeper keeper,
      RecentJobs recent,
      InstantSource clock,
      LatestWins.Pause pause) {
    this.board = board;
    this.diskWriter = diskWriter;
    this.keeper = keeper;
    this.recent = recent;
    this.clock = clock;
    this.fitting = new LatestWins(board, pause, 0.25);
  }

  /** The job as it is written; empty while the bench is. */
  public ReadOnlyObjectProperty<Optional<JobDraft>> draftProperty() {
    return draft.getReadOnlyProperty();
  }

  /** Why the job cannot be worked out as it is written. */
  public ReadOnlyObjectProperty<Optional<String>> problemProperty() {
    return problem.getReadOnlyProperty();
  }

  /** Where in the job that lies. */
  public ReadOnlyObjectProperty<Optional<Fault>> faultProperty() {
    return fault.getReadOnlyProperty();
  }

  /** What the job came to; that of an earlier state of it while {@link #workingProperty()}. */
  public ReadOnlyObjectProperty<Optional<WorkedOut>> verdictProperty() {
    return verdict.getReadOnlyProperty();
  }

  /** Counts the jobs that were laid on the bench; it changes with another job. */
  public ReadOnlyIntegerProperty jobsProperty() {
    return jobs.getReadOnlyProperty();
  }

  /** Whether a verdict is being worked out. */
  public ReadOnlyBooleanProperty workingProperty() {
    return working.getReadOnlyProperty();
  }

  /** The next useful thing to do. */
  public ReadOnlyObjectProperty<NextStep> nextProperty() {
    return next.getReadOnlyProperty();
  }

  /** Something that was refused or done just now. */
  public ReadOnlyObjectProperty<Optional<String>> noticeProperty() {
    return notice.getReadOnlyProperty();
  }

  /** When the draft as it is now was kept on disk; empty while it is not, or nothing is unsaved. */
  public ReadOnlyObjectProperty<Optional<Instant>> keptProperty() {
    return kept.getReadOnlyProperty();
  }

  public ReadOnlyObjectProperty<Optional<String>> undoWordsProperty() {
    return undoWords.getReadOnlyProperty();
  }

  public ReadOnlyObjectProperty<Optional<String>> redoWordsProperty() {
    return redoWords.getReadOnlyProperty();
  }

  /** Whether there are edits that no job file has, or texts that nobody has confirmed. */
  public boolean unsaved() {
    return unsavedEdits > 0 || !typed.isEmpty();
  }

  /** Texts that nobody has confirmed, by the name of their field. */
  public Map<String, String> typed() {
    return Map.copyOf(typed);
  }

  /**
   * Keeps a text that is being typed, so that it outlives the program.
   *
   * @param open whether it is still to be confirmed; else it is kept no longer
   */
  public void type(String field, String text, boolean open) {
    if (draft.get().isEmpty()) {
      return;
    }
    boolean changes = open ? !text.equals(typed.put(field, text)) : typed.remove(field) != null;
    // Of many letters typed while the disk is busy, the last state is written.
    if (changes && typing.compareAndSet(false, true)) {
      board.screen().execute(this::keepTyped);
    }
  }

  /** Fields that are no more have nothing to be confirmed. */
  public void typedOnlyIn(Collection<String> fields) {
    typed.keySet().retainAll(fields);
  }

  private void keepTyped() {
    JobDraft now = draft.get().orElseThrow();
    Map<String, String> texts = typed();
    int edits = unsavedEdits;
    String words = lastEdit.isEmpty() ? Texts.of("edit.typed") : lastEdit;
    Instant when = clock.instant();
    diskWriter.execute(
        () -> {
          typing.set(false);
          try {
            if (edits == 0 && texts.isEmpty()) {
              keeper.clear();
            } else {
              keeper.keep(now, texts, edits, words, when);
              board.screen().execute(() -> keptNow(now, when));
            }
          } catch (Refusal e) {
            board.screen().execute(() -> say(e.getMessage()));
          }
        });
  }

  /** Job files opened or saved last. */
  public List<Path> recentJobs() {
    return recent.all();
  }

  /** The same with their titles and dates. */
  public List<RecentJobs.Entry> recentEntries() {
    return recent.entries();
  }

  /** Jobs left without being saved, in this start too, and those set aside; the latest first. */
  public List<KeptSession> setAside() {
    return Stream.concat(keeper.aside().stream(), keeper.leftBehind().stream())
        .sorted(Comparator.comparing(KeptSession::when).reversed())
        .toList();
  }

  /** Sessions left behind by earlier starts. */
  public List<KeptSession> leftBehind() {
    return keeper.leftBehind();
  }

  /** Takes what was dropped: a job file is opened, recordings join the job or begin one. */
  public void take(List<Path> files) {
    try {
      Dropped dropped = Dropped.of(files);
      if (dropped.job().isPresent()) {
        open(dropped.job().get());
      } else {
        takeRecordings(dropped.recordings());
      }
    } catch (Refusal e) {
      say(e.getMessage());
    }
  }

  private void takeRecordings(List<Path> recordings) {
    if (draft.get().isEmpty()) {
      JobDraft begun =
          JobDraft.ofRecordings(recordings, Texts.of("draft.title"), Texts.of("draft.pickup"));
      begin(begun, 0);
      changed(Texts.of("edit.recordings", recordings.size()), begun, begun);
      return;
    }
    edit(
        Texts.of("edit.recordings", recordings.size()),
        job -> {
          JobDraft more = job;
          for (Path recording : recordings) {
            more = more.withRecording(recording);
          }
          return more;
        });
  }

  /**
   * Begins a job with nothing in it.
   *
   * @param folder where its recordings and its file are to lie; made when something is written
   */
  public void beginNew(Path folder) {
    JobDraft begun =
        JobDraft.begun(
            folder, Texts.of("draft.title"), Texts.of("draft.pickup"), Texts.of("setups.before"));
    begin(begun, 0);
    fit();
  }

  /** Opens a job file. */
  public void open(Path file) {
    try {
      JobDraft read = JobDraft.read(file);
      begin(read, 0);
      remember(file);
      fit();
    } catch (Refusal e) {
      say(e.getMessage());
    }
  }

  /** Takes up a session that was left behind. */
  public void takeUp(KeptSession session) {
    begin(session.draft(), session.edits());
    typed.putAll(session.typed());
    keep(session.last());
    diskWriter.execute(() -> keeper.takenUp(session));
    fit();
  }

  /** Goes on with the job that was open last, where nothing else is wanted. */
  public void goOn() {
    if (draft.get().isEmpty()) {
      recent.all().stream().findFirst().ifPresent(this::open);
    }
  }

  /** Puts a session away; its file stays. */
  public void setAside(KeptSession session) {
    diskWriter.execute(() -> keeper.setAside(session));
  }

  private void begin(JobDraft job, int edits) {
    if (unsaved()) {
      String name = "left-" + clock.instant().toEpochMilli();
      diskWriter.execute(() -> keeper.leave(name));
    }
    history.clear();
    typed.clear();
    lastEdit = "";
    unsavedEdits = edits;
    notice.set(Optional.empty());
    verdict.set(Optional.empty());
    kept.set(Optional.empty());
    jobs.set(jobs.get() + 1);
    show(job);
  }

  /**
   * Edits the job. An edit that changes nothing is none.
   *
   * @param words what is done, for undo and for a restore
   */
  public void edit(String words, UnaryOperator<JobDraft> change) {
    JobDraft before = draft.get().orElse(null);
    if (before == null) {
      return;
    }
    JobDraft after = change.apply(before);
    if (!after.equals(before)) {
      changed(words, before, after);
    }
  }

  private void changed(String words, JobDraft before, JobDraft after) {
    history.add(words, before, after);
    unsavedEdits++;
    notice.set(Optional.empty());
    show(after);
    keep(words);
    fit();
  }

  /** Takes the last edit back. */
  public void undo() {
    String words = history.undoWords().map(w -> Texts.of("edit.undone", w)).orElse("");
    history.undo().ifPresent(before -> stepped(words, before));
  }

  /** Does again what was undone. */
  public void redo() {
    String words = history.redoWords().orElse("");
    history.redo().ifPresent(after -> stepped(words, after));
  }

  private void stepped(String words, JobDraft to) {
    unsavedEdits++;
    show(to);
    keep(words);
    fit();
  }

  /** Writes the job to a file and goes on with it there. */
  public void save(Path file) {
    JobDraft now = draft.get().orElse(null);
    if (now == null) {
      return;
    }
    JobDraft filed = now.filedAt(file);
    board.start(
        Texts.of("task.save"),
        ticker -> {
          filed.write();
          return filed;
        },
        done -> {
          if (draft.get().filter(now::equals).isPresent()) {
            unsavedEdits = 0;
            show(done);
            kept.set(Optional.empty());
            lastEdit = "";
            keepTyped();
          }
          remember(file);
          say(Texts.of("notice.saved", file.getFileName()));
        },
        this::say);
  }

  private void remember(Path file) {
    diskWriter.execute(
        () -> {
          if (Files.isRegularFile(file)) {
            recent.add(file);
          }
        });
  }

  private void show(JobDraft job) {
    draft.set(Optional.of(job));
    undoWords.set(history.undoWords());
    redoWords.set(history.redoWords());
    look();
  }

  private void look() {
    next.set(NextStep.of(draft.get(), problem.get(), fault.get(), working.get(), verdict.get()));
  }

  private void keep(String words) {
    JobDraft now = draft.get().orElseThrow();
    Map<String, String> texts = typed();
    lastEdit = words;
    int edits = unsavedEdits;
    Instant when = clock.instant();
    kept.set(Optional.empty());
    diskWriter.execute(
        () -> {
          try {
            keeper.keep(now, texts, edits, words, when);
            board.screen().execute(() -> keptNow(now, when));
          } catch (Refusal e) {
            board.screen().execute(() -> say(e.getMessage()));
          }
        });
  }

  private void keptNow(JobDraft which, Instant when) {
    if (draft.get().filter(which::equals).isPresent()) {
      kept.set(Optional.of(when));
    }
  }

  /** Works the verdict out anew, unless nothing changed that it depends on. */
  public void fit() {
    JobDraft now = draft.get().orElseThrow();
    fault.set(Optional.empty());
    if (!working.get() && verdict.get().filter(v -> v.draft().measuresLike(now)).isPresent()) {
      problem.set(Optional.empty());
      look();
      return;
    }
    Job job;
    try {
      job = now.job();
    } catch (Refusal e) {
      fitting.forget();
      Fault found = Fault.of(e.getMessage(), now);
      fault.set(Optional.of(found));
      problem.set(Optional.of(found.sentence()));
      working.set(false);
      look();
      return;
    }
    problem.set(Optional.empty());
    working.set(true);
    look();
    fitting.ask(
        Texts.of("task.fit", now.title()),
        ticker -> {
          AtomicReference<FittedParts> parts = new AtomicReference<>();
          FitResult result = new FitJob(true).awaited().run(job, parts::set, ticker::at);
          return new WorkedOut(now, result, Optional.ofNullable(parts.get()));
        },
        found -> {
          verdict.set(Optional.of(found));
          working.set(false);
          look();
        },
        sentence -> {
          problem.set(Optional.of(sentence));
          working.set(false);
          look();
        });
  }

  /** Tells the person something. */
  public void say(String sentence) {
    notice.set(Optional.of(sentence));
  }

  /** Takes the last notice away. */
  public void heard() {
    notice.set(Optional.empty());
  }
}
