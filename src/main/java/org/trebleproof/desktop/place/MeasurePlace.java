package org.trebleproof.desktop.place;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.scene.control.Button;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.TextField;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.bench.live.CaptureRecorder;
import org.trebleproof.bench.live.StrikeRecorder;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.piece.DeviceBox;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.LevelBars;
import org.trebleproof.desktop.place.piece.LineDrawing;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Measuring;
import org.trebleproof.desktop.work.SetupToStrike;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.report.plot.FrequencyPlot;

/** Where recordings come from: what to plug where, the devices, the levels, the recording. */
public final class MeasurePlace extends Place {

  private static final String STRIKE = "strike";

  private final Workbench bench;
  private final Measuring measuring;
  private final Runnable begin;
  private final Runnable addFiles;
  private final Runnable sweep;
  private final DeviceBox playback;
  private final DeviceBox recording;
  private final ComboBox<String> setup = new ComboBox<>();
  private final MenuButton across = new MenuButton();
  private final TextField name = new TextField();
  private final Button level;
  private final Button record;
  private final Button stop;
  private final Button enough;
  private final ComboBox<Integer> strikes = new ComboBox<>();
  private final Label step = Lettering.text("");
  private final LevelBars bars = new LevelBars();
  private final VBox spectrum = new VBox();
  private final List<String> clipped = new ArrayList<>();
  private PlotPane plot;
  private String shownKind = "?";
  private boolean named;
  private int recorded;

  /**
   * The place.
   *
   * @param begin begins a new job
   * @param addFiles asks for recordings
   * @param sweep writes the sweep as a file
   */
  public MeasurePlace(
      Workbench bench, Measuring measuring, Runnable begin, Runnable addFiles, Runnable sweep) {
    super("measure-place");
    this.bench = bench;
    this.measuring = measuring;
    this.begin = begin;
    this.addFiles = addFiles;
    this.sweep = sweep;
    playback = new DeviceBox("measure.playback", SoundDevice.Direction.PLAYBACK, measuring);
    recording = new DeviceBox("measure.recording", SoundDevice.Direction.RECORDING, measuring);
    level = Lettering.button(Texts.of("measure.listen"), this::listen);
    record = Lettering.mainButton(Texts.of("measure.record"), this::record);
    record.setId("measure-record");
    stop = Lettering.button(Texts.of("measure.stop"), measuring::stop);
    enough = Lettering.button(Texts.of("measure.enough"), measuring::finish);
    enough.setId("measure-enough");
    strikes.getItems().setAll(6, 12, StrikeRecorder.USUAL, 24, 36);
    strikes.setValue(StrikeRecorder.USUAL);
    strikes.setAccessibleText(Texts.of("measure.strikes"));
    setup.setAccessibleText(Texts.of("measure.setup"));
    setup.setId("measure-setup");
    name.setAccessibleText(Texts.of("measure.name"));
    across.setAccessibleText(Texts.of("measure.across"));
    setup.valueProperty().addListener((o, old, now) -> proposeName());
    name.setOnKeyTyped(e -> named = true);
    step.setId("measure-step");
    playback.valueProperty().addListener((o, old, now) -> enable());
    recording.valueProperty().addListener((o, old, now) -> enable());
    measuring.levelsProperty().addListener((o, old, now) -> bars.show(now));
    measuring.spectrumProperty().addListener((o, old, now) -> showSpectrum(now));
    step.setText(measuring.stepProperty().get());
    measuring.stepProperty().addListener((o, old, now) -> step.setText(now));
    measuring.runningProperty().addListener((o, old, now) -> enable());
    measuring.strikingProperty().addListener((o, old, now) -> enable());
    bench.draftProperty().addListener((o, old, now) -> show(now));
    show(bench.draftProperty().get());
    enable();
  }

  private void show(Optional<JobDraft> job) {
    String kind = job.map(JobDraft::fixtureKind).orElse("none");
    if (!kind.equals(shownKind)) {
      shownKind = kind;
      layOut(job.isPresent(), kind);
    }
    List<String> setups = new ArrayList<>(job.map(JobDraft::setups).orElse(List.of()));
    Optional<String> toStrike =
        job.filter(d -> d.fixtureKind().equals(STRIKE)).flatMap(SetupToStrike::of);
    toStrike.filter(s -> !setups.contains(s)).ifPresent(setups::add);
    if (!setup.getItems().equals(setups)) {
      String chosen = setup.getValue();
      setup.getItems().setAll(setups);
      setup.setValue(
          chosen != null && setups.contains(chosen)
              ? chosen
              : setups.stream().findFirst().orElse(null));
    }
    int now = job.map(d -> d.captures().size()).orElse(0);
    if (now > recorded) {
      toStrike.ifPresent(setup::setValue);
    }
    recorded = now;
    showAcross(job);
    proposeName();
    enable();
  }

  private void layOut(boolean begun, String kind) {
    write(Lettering.styled(Texts.of("measure.title"), "lead"));
    if (!begun) {
      add(
          Lettering.text(Texts.of("measure.begin.words")),
          Lettering.mainButton(Texts.of("measure.begin"), begin));
    }
    if (kind.equals(STRIKE)) {
      layOutStrikes(begun);
      return;
    }
    if (!kind.equals("series")) {
      add(LineDrawing.exciter());
    }
    if (!kind.equals("exciter")) {
      add(LineDrawing.series());
    }
    add(Lettering.styled(CaptureRecorder.caution(), "caution"));
    if (begun) {
      GridPane form = new GridPane();
      form.getStyleClass().add("form");
      form.addRow(0, Lettering.text(Texts.of("measure.playback")), playback);
      form.addRow(1, Lettering.text(Texts.of("measure.recording")), recording);
      form.addRow(2, Lettering.text(Texts.of("measure.setup")), setup);
      form.addRow(3, Lettering.text(Texts.of("measure.across")), across);
      form.addRow(4, Lettering.text(Texts.of("measure.name")), name);
      FlowPane buttons = new FlowPane();
      buttons.getStyleClass().add("buttons");
      buttons
          .getChildren()
          .addAll(
              record, level, stop, Lettering.button(Texts.of("measure.again"), measuring::look));
      add(form, buttons, step, bars, spectrum);
    }
    FlowPane elsewhere = new FlowPane();
    elsewhere.getStyleClass().add("buttons");
    elsewhere
        .getChildren()
        .addAll(
            Lettering.button(Texts.of("measure.sweep"), sweep),
            Lettering.button(Texts.of("captures.add"), addFiles));
    add(Lettering.faint(Texts.of("measure.words")), elsewhere);
  }

  /** Strikes are recorded here or with any recorder. */
  private void layOutStrikes(boolean begun) {
    add(
        LineDrawing.strikes(),
        Lettering.text(Texts.of("measure.strikes.words")),
        Lettering.styled(StrikeRecorder.caution(), "caution"));
    if (begun) {
      GridPane form = new GridPane();
      form.getStyleClass().add("form");
      form.addRow(0, Lettering.text(Texts.of("measure.recording")), recording);
      form.addRow(1, Lettering.text(Texts.of("measure.setup")), setup);
      form.addRow(2, Lettering.text(Texts.of("measure.across")), across);
      form.addRow(3, Lettering.text(Texts.of("measure.name")), name);
      form.addRow(4, Lettering.text(Texts.of("measure.strikes")), strikes);
      FlowPane buttons = new FlowPane();
      buttons.getStyleClass().add("buttons");
      buttons
          .getChildren()
          .addAll(
              record,
              enough,
              level,
              stop,
              Lettering.button(Texts.of("measure.again"), measuring::look));
      add(form, buttons, step, bars, spectrum);
    }
    add(
        Lettering.faint(Texts.of("measure.strikes.other")),
        Lettering.button(Texts.of("captures.add"), addFiles));
  }

  private void showAcross(Optional<JobDraft> job) {
    List<String> parts =
        job.map(JobDraft::parts).orElse(List.of()).stream()
            .filter(p -> List.of("capacitor", "resistor", "cable").contains(p.kind()))
            .map(JobDraft.PartLine::name)
            .toList();
    clipped.retainAll(parts);
    across
        .getItems()
        .setAll(
            parts.stream()
                .map(
                    part -> {
                      CheckMenuItem item = new CheckMenuItem(part);
                      item.setMnemonicParsing(false);
                      item.setSelected(clipped.contains(part));
                      item.setOnAction(
                          e -> {
                            clipped.remove(part);
                            if (item.isSelected()) {
                              clipped.add(part);
                            }
                            nameAcross();
                            proposeName();
                          });
                      return item;
                    })
                .toList());
    nameAcross();
  }

  private void nameAcross() {
    across.setText(
        clipped.isEmpty()
            ? Texts.of("captures.across.none")
            : Texts.of("captures.across", String.join(", ", clipped)));
  }

  private void proposeName() {
    Optional<JobDraft> job = bench.draftProperty().get();
    boolean taken =
        job.filter(d -> d.captures().stream().anyMatch(c -> c.id().equals(name.getText())))
            .isPresent();
    if (job.isPresent() && setup.getValue() != null && (!named || taken)) {
      named = false;
      name.setText(Measuring.freeName(job.get(), setup.getValue(), clipped));
    }
  }

  private void enable() {
    boolean running = measuring.runningProperty().get();
    boolean heard = recording.getValue() != null;
    level.setDisable(running || !heard);
    boolean played = shownKind.equals(STRIKE) || playback.getValue() != null;
    record.setDisable(running || !heard || !played || setup.getValue() == null);
    stop.setDisable(!running);
    enough.setDisable(!measuring.strikingProperty().get());
  }

  private void listen() {
    measuring.listen(recording.getValue());
  }

  private void record() {
    if (shownKind.equals(STRIKE)) {
      measuring.record(
          new Measuring.WantedStrikes(
              recording.getValue(),
              name.getText().strip(),
              setup.getValue(),
              clipped,
              strikes.getValue()));
      return;
    }
    measuring.record(
        new Measuring.Wanted(
            playback.getValue(),
            recording.getValue(),
            name.getText().strip(),
            setup.getValue(),
            clipped));
  }

  private void showSpectrum(Optional<FrequencyPlot> now) {
    if (now.isEmpty()) {
      return;
    }
    if (plot == null) {
      plot = new PlotPane(now.get(), new PlotGroup());
      plot.getStyleClass().add("difference");
      spectrum.getChildren().setAll(plot);
    } else {
      plot.plotProperty().set(now.get());
    }
  }
}
