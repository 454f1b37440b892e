package org.trebleproof.desktop.place;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.input.Dragboard;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.bench.hum.SafetyNote;
import org.trebleproof.bench.hum.StateLevels;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.place.piece.DeviceBox;
import org.trebleproof.desktop.place.piece.FindingCard;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.LevelBars;
import org.trebleproof.desktop.place.piece.SteadyRoom;
import org.trebleproof.desktop.plot.PlotFrame;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.HumVisit;
import org.trebleproof.desktop.work.Measuring;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.report.page.HumPlots;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.words.HumHeadline;
import org.trebleproof.report.words.HumText;
import org.trebleproof.report.words.Sentence;

/** The hum check: silence in several states of the guitar, and what it points at. */
public final class HumPlace extends Place {

  /** Share of the height in sight that the spectrum takes at first. */
  private static final double SPECTRUM = 0.45;

  private final Workbench bench;
  private final HumVisit visit;
  private final Measuring measuring;
  private final FileAsker files;
  private final DeviceBox device;
  private final Button stop;
  private final List<Button> recorders = new ArrayList<>();
  private final SteadyRoom headline = new SteadyRoom(90, "verdict-line");
  private final ComboBox<HumState> which = new ComboBox<>();
  private final PlotGroup group;
  private PlotPane spectrum;
  private PlotFrame frame;
  private final GridPane states = new GridPane();
  private final VBox outcome = new VBox();
  private final CheckBox later = new CheckBox(Texts.of("hum.after"));
  private final Map<HumState, Label[]> names = new EnumMap<>(HumState.class);
  private final Map<Label, Button> removers = new HashMap<>();
  private final Consumer<HumResult> writePage;

  /**
   * The check.
   *
   * @param writePage asks for a place and writes the page
   */
  public HumPlace(
      Workbench bench,
      HumVisit visit,
      Measuring measuring,
      FileAsker files,
      Consumer<HumResult> writePage) {
    super("hum-place");
    this.bench = bench;
    this.visit = visit;
    this.measuring = measuring;
    this.files = files;
    this.writePage = writePage;
    group = plotsOf(bench);
    device = new DeviceBox("measure.recording", SoundDevice.Direction.RECORDING, measuring);
    device.setId("hum-device");
    stop = Lettering.button(Texts.of("measure.stop"), measuring::stop);
    outcome.getStyleClass().add("page-part");
    states.getStyleClass().add("hum-states");
    later.setOnAction(e -> layOut());
    later.setId("hum-after");
    setOnDragOver(
        e -> {
          if (e.getDragboard().hasFiles()) {
            e.acceptTransferModes(TransferMode.COPY);
            e.consume();
          }
        });
    setOnDragDropped(
        e -> {
          put(e.getDragboard());
          e.setDropCompleted(true);
          e.consume();
        });
    which.setAccessibleText(Texts.of("hum.spectrum.of"));
    which.setId("hum-spectrum-of");
    which.setConverter(new StateWords());
    which.valueProperty().addListener((o, old, now) -> showSpectrum());
    bench.jobsProperty().addListener(o -> headline.forget());
    write(
        Lettering.styled(Texts.of("hum.title"), "lead"),
        headline,
        Lettering.text(Texts.of("hum.words")),
        Lettering.styled(SafetyNote.brief(), "caution"),
        recording(),
        states,
        later,
        outcome);
    measuring.runningProperty().addListener(o -> enable());
    device.valueProperty().addListener(o -> enable());
    show();
    layOut();
    visit.recordingsProperty().addListener((o, old, now) -> fill());
    visit.resultProperty().addListener((o, old, now) -> show());
    visit.problemProperty().addListener((o, old, now) -> show());
  }

  /** The device, and how loud it is. */
  private VBox recording() {
    FlowPane line = new FlowPane();
    line.getStyleClass().add("buttons");
    Label name = Lettering.text(Texts.of("measure.recording"));
    name.setLabelFor(device);
    line.getChildren()
        .addAll(name, device, stop, Lettering.button(Texts.of("measure.again"), measuring::look));
    LevelBars bars = new LevelBars();
    SteadyRoom step = new SteadyRoom(70, "words");
    Label words = Lettering.text(measuring.stepProperty().get());
    step.hold(words);
    measuring.stepProperty().addListener((o, old, now) -> words.setText(now));
    measuring.levelsProperty().addListener((o, old, now) -> bars.show(now));
    VBox all = new VBox(line, step, bars);
    all.getStyleClass().add("page-part");
    return all;
  }

  private void enable() {
    boolean running = measuring.runningProperty().get();
    stop.setDisable(!running);
    recorders.forEach(r -> r.setDisable(running || device.getValue() == null));
  }

  private void record(HumState state, boolean after) {
    visit.needJob();
    measuring.recordSilence(device.getValue(), state, after, made -> visit.put(state, after, made));
  }

  private void put(Dragboard board) {
    put(board.getFiles().stream().map(java.io.File::toPath).toList());
  }

  /** Takes recordings whose names speak of their states. */
  public void put(List<Path> recordings) {
    List<Path> unknown = visit.put(recordings);
    if (!unknown.isEmpty()) {
      bench.say(Texts.of("hum.unknown", unknown.get(0).getFileName()));
    }
  }

  private void layOut() {
    states.getChildren().clear();
    names.clear();
    removers.clear();
    recorders.clear();
    int columns = later.isSelected() ? 2 : 1;
    if (columns > 1) {
      states.add(Lettering.faint(Texts.of("hum.column.now")), 1, 0);
      states.add(Lettering.faint(Texts.of("hum.column.after")), 2, 0);
    }
    int row = 1;
    for (HumState state : HumState.values()) {
      VBox what =
          new VBox(Lettering.styled(state.words(), "strong"), Lettering.faint(state.test()));
      states.add(what, 0, row);
      Label[] cells = new Label[columns];
      for (int c = 0; c < columns; c++) {
        cells[c] = Lettering.text("");
        states.add(slot(state, c == 1, cells[c]), c + 1, row);
      }
      names.put(state, cells);
      row++;
    }
    fill();
    enable();
  }

  private VBox slot(HumState state, boolean after, Label name) {
    Button choose =
        Lettering.button(
            Texts.of("hum.choose"),
            () ->
                files.toOpen(Texts.of("hum.choose.title", state.words())).stream()
                    .limit(1)
                    .forEach(f -> visit.put(state, after, f)));
    choose.setAccessibleText(Texts.of("hum.choose.title", state.words()));
    Button remove =
        Lettering.remove(
            Texts.of("hum.remove", state.words()), () -> visit.put(state, after, null));
    Button record = Lettering.button(Texts.of("hum.record"), () -> record(state, after));
    record.setAccessibleText(Texts.of("hum.record.of", state.words()));
    record.setId("hum-record-" + state.key() + (after ? "-after" : ""));
    recorders.add(record);
    removers.put(name, remove);
    VBox slot = new VBox(name, new FlowPane(6, 4, record, choose, remove));
    slot.getStyleClass().add("slot");
    slot.setOnDragOver(
        e -> {
          if (e.getDragboard().hasFiles()) {
            e.acceptTransferModes(TransferMode.COPY);
            e.consume();
          }
        });
    slot.setOnDragDropped(
        e -> {
          if (e.getDragboard().getFiles().size() == 1) {
            visit.put(state, after, e.getDragboard().getFiles().get(0).toPath());
          } else {
            put(e.getDragboard());
          }
          e.setDropCompleted(true);
          e.consume();
        });
    return slot;
  }

  private void fill() {
    names.forEach(
        (state, cells) -> {
          for (int c = 0; c < cells.length; c++) {
            Optional<Path> file = visit.recordingsProperty().get().of(state, c == 1);
            cells[c].setText(
                file.map(f -> String.valueOf(f.getFileName())).orElse(Texts.of("hum.drop")));
            removers.get(cells[c]).setVisible(file.isPresent());
            cells[c].getStyleClass().setAll("label", file.isPresent() ? "strong" : "faint");
          }
        });
  }

  private void show() {
    outcome.getChildren().clear();
    Optional<HumResult> result = visit.resultProperty().get();
    Node words =
        visit
            .problemProperty()
            .get()
            .map(p -> (Node) Lettering.styled(p, "mistake"))
            .or(() -> result.map(r -> Lettering.sentence(HumHeadline.of(r), "verdict-line")))
            .orElseGet(() -> Lettering.styled(Texts.of("hum.none"), "verdict-line"));
    words.setId("hum-headline");
    headline.hold(words);
    result.ifPresent(this::show);
  }

  private void show(HumResult result) {
    for (HumCause cause : result.causes()) {
      VBox card =
          new VBox(
              Lettering.styled(
                  Sentence.of(cause.strength().words() + ": " + cause.code().words()), "strong"),
              Lettering.text(Texts.of("hum.heard", Sentence.of(cause.heard()).strip())),
              Lettering.text(Texts.of("finding.next", Sentence.of(cause.next()))));
      card.getStyleClass().add("card");
      outcome.getChildren().add(card);
    }
    result.verdict().toMind().forEach(f -> outcome.getChildren().add(new FindingCard(f)));
    outcome.getChildren().addAll(Lettering.heading(Texts.of("hum.levels")), levels(result));
    spectra(result);
    outcome
        .getChildren()
        .add(Lettering.button(Texts.of("hum.page"), () -> writePage.accept(result)));
    outcome.getChildren().add(Lettering.heading(Texts.of("verdict.care")));
    SafetyNote.full().forEach(s -> outcome.getChildren().add(Lettering.faint("· " + s)));
  }

  /** One spectrum with its lines marked, of the state that is chosen. */
  private void spectra(HumResult result) {
    List<HumState> heard = result.readings().stream().map(StateReading::state).toList();
    if (!which.getItems().equals(heard)) {
      HumState chosen = which.getValue();
      which.getItems().setAll(heard);
      which.setValue(heard.contains(chosen) ? chosen : heard.get(0));
    }
    showSpectrum();
    FlowPane line = new FlowPane();
    line.getStyleClass().add("buttons");
    line.getChildren().addAll(Lettering.text(Texts.of("hum.spectrum.of")), which);
    outcome.getChildren().add(line);
    if (frame != null) {
      outcome.getChildren().add(frame);
    }
  }

  private void showSpectrum() {
    Optional<HumResult> result = visit.resultProperty().get();
    Optional<StateReading> reading =
        result.flatMap(
            r -> r.readings().stream().filter(s -> s.state() == which.getValue()).findFirst());
    if (reading.isEmpty()) {
      return;
    }
    FrequencyPlot plot = new HumPlots(result.get()).spectrum(reading.get());
    if (spectrum == null) {
      spectrum = new PlotPane(plot, group);
      spectrum.setId("hum-spectrum");
      spectrum.getStyleClass().add("levels");
      frame = new PlotFrame(spectrum, this, share("hum", SPECTRUM));
    } else {
      spectrum.plotProperty().set(plot);
    }
  }

  /** States by their words. */
  private static final class StateWords extends StringConverter<HumState> {
    @Override
    public String toString(HumState state) {
      return state == null ? "" : Sentence.of(state.words()).replaceAll("\\.$", "");
    }

    @Override
    public HumState fromString(String words) {
      throw new UnsupportedOperationException("states are chosen, not typed");
    }
  }

  private static GridPane levels(HumResult result) {
    GridPane grid = new GridPane();
    grid.getStyleClass().add("estimates");
    grid.addRow(
        0,
        new Label(""),
        Lettering.faint(Texts.of("hum.hum")),
        Lettering.faint(Texts.of("hum.buzz")),
        Lettering.faint(Texts.of("hum.hiss")),
        Lettering.faint(Texts.of("hum.total")));
    for (StateReading reading : result.readings()) {
      StateLevels levels = result.levels().get(reading.state());
      grid.addRow(
          grid.getRowCount(),
          Lettering.text(reading.state().words()),
          Lettering.styled(HumText.cell(levels.hum()), "number"),
          Lettering.styled(HumText.cell(levels.buzz()), "number"),
          Lettering.styled(HumText.cell(levels.hiss()), "number"),
          Lettering.styled(HumText.cell(levels.totalWeighted()), "number"));
    }
    String mains =
        result
            .mains()
            .map(m -> Texts.of("hum.mains", HumText.mains(m)))
            .orElse(Texts.of("hum.mains.none"));
    grid.add(Lettering.faint(mains), 0, grid.getRowCount(), 5, 1);
    return grid;
  }
}
