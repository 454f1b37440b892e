package org.trebleproof.desktop.place.order;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.function.Supplier;
import javafx.beans.value.ChangeListener;
import javafx.beans.value.ObservableValue;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.bench.mod.turn.TurnTable;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Measuring;
import org.trebleproof.desktop.work.Trial;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.file.FilesInUse;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.report.demonstration.CarriedStrike;
import org.trebleproof.report.demonstration.DemonstrationPage;
import org.trebleproof.report.demonstration.TwoSounds;
import org.trebleproof.report.file.CurvesCsv;
import org.trebleproof.report.file.ResultJson;
import org.trebleproof.report.page.HtmlPage;
import org.trebleproof.report.page.HumPage;
import org.trebleproof.report.page.ModPage;

/** Writes files for others, each whole or not at all, and says where. */
public final class Exports {

  private final Workbench bench;
  private final Trial trial;
  private final TaskBoard board;
  private final FileAsker files;
  private final String version;
  private final Consumer<Path> open;

  /**
   * Exports of a bench.
   *
   * @param version of the program, for the pages
   * @param open shows a page that was written
   */
  public Exports(
      Workbench bench,
      Trial trial,
      TaskBoard board,
      FileAsker files,
      String version,
      Consumer<Path> open) {
    this.bench = bench;
    this.trial = trial;
    this.board = board;
    this.files = files;
    this.version = version;
    this.open = open;
  }

  /**
   * The page for the customer.
   *
   * @param heard whether before and after can be heard in it
   */
  public void page(boolean heard) {
    verdict(v -> write("page.file.page", ".html", "", () -> customerPage(v, heard), true));
  }

  private String customerPage(WorkedOut verdict, boolean heard) {
    return HtmlPage.of(
        verdict.result(),
        version,
        LocalDate.now().toString(),
        heard ? TwoSounds.of(verdict.result().job(), verdict.chain()).html() : "");
  }

  /**
   * The page in which others turn the guitar and hear it: with the mod that is on trial, else with
   * the job's first setup before and its last one after.
   *
   * @param strike recording of the guitar as it is before; empty for computed strings
   */
  public void demonstration(Optional<Path> strike) {
    Optional<Trial.Tried> tried = trial.triedProperty().get();
    tried.ifPresent(
        t ->
            write(
                "page.file.page",
                ".html",
                Texts.of("page.file.demonstration"),
                () -> demonstration(t, strike),
                true));
  }

  private static String demonstration(Trial.Tried tried, Optional<Path> strike) {
    SignalChain chain = tried.chain();
    Optional<String> earlier =
        tried.prediction().changes().isEmpty() ? TurnTable.earlier(chain) : Optional.empty();
    Layout before = earlier.isPresent() ? chain.layout(earlier) : tried.now();
    return DemonstrationPage.of(
        TurnTable.of(chain, before, tried.then()),
        new Predictor(chain, before, tried.then(), Predictor.USUAL_DRAWS).predict(),
        strike.map(SoundFile::read).map(CarriedStrike::of),
        LocalDate.now().toString());
  }

  /** The curves as a table. */
  public void curves() {
    verdict(v -> write("page.file.csv", ".csv", "", () -> CurvesCsv.of(v.result()), false));
  }

  /** The result for another program. */
  public void numbers() {
    verdict(v -> write("page.file.json", ".json", "", () -> ResultJson.of(v.result()), false));
  }

  /** The page about the mod that is on trial. */
  public void plan() {
    Optional<Trial.Tried> tried = trial.triedProperty().get();
    tried.ifPresent(
        t ->
            write(
                "page.file.page",
                ".html",
                Texts.of("page.file.plan"),
                () ->
                    ModPage.of(
                        t.prediction(),
                        ModPage.circuits(t.chain(), t.now(), t.then()),
                        LocalDate.now().toString()),
                true));
  }

  /** The page of a hum check. */
  public void hum(HumResult result) {
    write(
        "page.file.page",
        ".html",
        Texts.of("page.file.hum"),
        () -> HumPage.of(result, version, LocalDate.now().toString()),
        true);
  }

  /** The sheet of a batch of coils. */
  public void batch(String title, Supplier<String> text) {
    String plain = title.replaceAll("[^\\p{L}\\p{N} ,._-]+", "").strip();
    writeNamed(
        "page.file.page", ".html", plain.isEmpty() ? Texts.of("shelf.batch") : plain, text, true);
  }

  /** Before and after as sound files. */
  public void sounds(Rendering made) {
    Optional<Path> place =
        files.toWrite(
            Texts.of("page.file.sounds"),
            folder(),
            name("") + ".wav",
            Texts.of("page.file.sounds"),
            ".wav");
    place.ifPresent(
        file -> {
          String stem = String.valueOf(file.getFileName()).replaceAll("(?i)\\.wav$", "");
          Path before = file.resolveSibling(stem + " " + Texts.of("page.file.before") + ".wav");
          Path after = file.resolveSibling(stem + " " + Texts.of("page.file.after") + ".wav");
          board.start(
              Texts.of("task.write", stem),
              ticker -> {
                FilesInUse inUse = inUse();
                inUse.writes("", before);
                inUse.writes(" ", after);
                sound(inUse.place(""), made.before(), made.rate());
                sound(inUse.place(" "), made.after(), made.rate());
                return before;
              },
              done -> bench.say(Texts.of("notice.written", before)),
              bench::say);
        });
  }

  /**
   * The page about what was heard, with the result of a blind test if there was one.
   *
   * @param change what the two sounds differ by, as a sentence
   */
  public void heard(String change, Rendering made, Optional<BlindTest.Score> score) {
    String title = bench.draftProperty().get().map(JobDraft::title).orElse("");
    write(
        "page.file.page",
        ".html",
        Texts.of("page.file.heard"),
        () -> ModPage.of(title, change, made, score, LocalDate.now().toString()),
        true);
  }

  /** The sweep as a file, for whoever plays and records it with something else. */
  public void sweep() {
    files
        .toWrite(
            Texts.of("measure.sweep"),
            folder(),
            Texts.of("measure.sweep.name") + ".wav",
            Texts.of("page.file.sounds"),
            ".wav")
        .ifPresent(
            file ->
                board.start(
                    Texts.of("task.write", file.getFileName()),
                    ticker -> {
                      FilesInUse inUse = inUse();
                      inUse.writes("", file);
                      Measuring.sweep().write(inUse.place(""));
                      return file;
                    },
                    done -> bench.say(Texts.of("notice.written", done)),
                    bench::say));
  }

  /**
   * Shows the page in the browser without asking where it should stay: it goes with the program.
   *
   * @param heard whether before and after can be heard in it
   */
  public void look(boolean heard) {
    verdict(
        v ->
            board.start(
                Texts.of("task.write", name("")),
                ticker -> {
                  Path folder = Files.createTempDirectory("trebleproof-page-");
                  Path file = folder.resolve(name("") + ".html");
                  folder.toFile().deleteOnExit();
                  file.toFile().deleteOnExit(); // the last that was named goes first
                  return Files.writeString(file, customerPage(v, heard));
                },
                open,
                bench::say));
  }

  private static void sound(Path file, float[] samples, int rate) {
    WavWriter.write(file, new float[][] {samples}, rate, WavWriter.Encoding.PCM24);
  }

  /** The job file, asking for its place where there is none yet. */
  public void saveJob(boolean elsewhere) {
    JobDraft job = bench.draftProperty().get().orElse(null);
    if (job == null) {
      return;
    }
    if (job.filed() && !elsewhere) {
      bench.save(job.source());
      return;
    }
    files
        .toWrite(
            Texts.of("page.file.job"),
            folder(),
            job.source().getFileName().toString(),
            Texts.of("page.file.job"),
            ".json")
        .ifPresent(bench::save);
  }

  /** What is written is never older than the last edit: a verdict under way is waited for. */
  private void verdict(Consumer<WorkedOut> then) {
    if (!bench.workingProperty().get()) {
      bench.verdictProperty().get().ifPresent(then);
      return;
    }
    bench
        .workingProperty()
        .addListener(
            new ChangeListener<>() {
              @Override
              public void changed(
                  ObservableValue<? extends Boolean> working, Boolean was, Boolean is) {
                bench.workingProperty().removeListener(this);
                bench.verdictProperty().get().ifPresent(then);
              }
            });
  }

  private Path folder() {
    return bench
        .draftProperty()
        .get()
        .map(d -> d.source().toAbsolutePath().getParent())
        .orElse(Path.of(System.getProperty("user.home", ".")));
  }

  /** What the job on the bench reads, which no export replaces. */
  private FilesInUse inUse() {
    FilesInUse inUse = new FilesInUse();
    bench
        .draftProperty()
        .get()
        .ifPresent(
            draft -> {
              inUse.reads(draft.source());
              inUse.reads(List.copyOf(draft.silence(false).values()));
              inUse.reads(List.copyOf(draft.silence(true).values()));
              try {
                inUse.reads(draft.jobBeforeRecording().files());
              } catch (Refusal e) {
                return; // a job that is still being written; recordings are known by themselves
              }
            });
    return inUse;
  }

  /** The job's title as the beginning of a file's name. */
  private String name(String addition) {
    String title = bench.draftProperty().get().map(JobDraft::title).orElse("");
    String plain = title.replaceAll("[^\\p{L}\\p{N} ,._-]+", "").strip();
    String name = plain.isEmpty() ? Texts.of("draft.title") : plain;
    return addition.isEmpty() ? name : name + ", " + addition;
  }

  private void write(
      String kind, String ending, String addition, Supplier<String> text, boolean show) {
    writeNamed(kind, ending, name(addition), text, show);
  }

  private void writeNamed(
      String kind, String ending, String name, Supplier<String> text, boolean show) {
    files
        .toWrite(Texts.of(kind), folder(), name + ending, Texts.of(kind), ending)
        .ifPresent(
            file ->
                board.start(
                    Texts.of("task.write", file.getFileName()),
                    ticker -> {
                      FilesInUse inUse = inUse();
                      inUse.writes("", file);
                      inUse.write("", text.get());
                      return file;
                    },
                    done -> {
                      bench.say(Texts.of("notice.written", done));
                      if (show) {
                        open.accept(done);
                      }
                    },
                    bench::say));
  }
}
