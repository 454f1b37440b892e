package org.trebleproof.desktop.place;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.input.Dragboard;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.hum.HumCause;
import org.trebleproof.bench.hum.HumResult;
import org.trebleproof.bench.hum.HumState;
import org.trebleproof.bench.hum.SafetyNote;
import org.trebleproof.bench.hum.StateLevels;
import org.trebleproof.bench.hum.StateReading;
import org.trebleproof.desktop.ask.FileAsker;
import org.trebleproof.desktop.place.piece.FindingCard;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.HumVisit;
import org.trebleproof.report.words.HumHeadline;
import org.trebleproof.report.words.HumText;
import org.trebleproof.report.words.Sentence;

/** The hum check: silence in several states of the guitar, and what it points at. */
public final class HumPlace extends Place {

  private final HumVisit visit;
  private final FileAsker files;
  private final Consumer<String> say;
  private final GridPane states = new GridPane();
  private final VBox outcome = new VBox();
  private final CheckBox later = new CheckBox(Texts.of("hum.after"));
  private final Map<HumState, Label[]> names = new EnumMap<>(HumState.class);
  private final Consumer<HumResult> writePage;

  /**
   * The check.
   *
   * @param say tells the person what was refused
   * @param writePage asks for a place and writes the page
   */
  public HumPlace(
      HumVisit visit, FileAsker files, Consumer<String> say, Consumer<HumResult> writePage) {
    super("hum-place");
    this.visit = visit;
    this.files = files;
    this.say = say;
    this.writePage = writePage;
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
    write(
        Lettering.styled(Texts.of("hum.title"), "lead"),
        Lettering.text(Texts.of("hum.words")),
        Lettering.styled(SafetyNote.brief(), "caution"),
        states,
        later,
        outcome);
    layOut();
    visit.recordingsProperty().addListener((o, old, now) -> fill());
    visit.resultProperty().addListener((o, old, now) -> show());
    visit.problemProperty().addListener((o, old, now) -> show());
  }

  private void put(Dragboard board) {
    put(board.getFiles().stream().map(java.io.File::toPath).toList());
  }

  /** Takes recordings whose names speak of their states. */
  public void put(List<Path> recordings) {
    List<Path> unknown = visit.put(recordings);
    if (!unknown.isEmpty()) {
      say.accept(Texts.of("hum.unknown", unknown.get(0).getFileName()));
    }
  }

  private void layOut() {
    states.getChildren().clear();
    names.clear();
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
    VBox slot = new VBox(name, new FlowPane(6, 4, choose, remove));
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
            cells[c].getStyleClass().setAll("label", file.isPresent() ? "strong" : "faint");
          }
        });
  }

  private void show() {
    outcome.getChildren().clear();
    visit
        .problemProperty()
        .get()
        .ifPresent(p -> outcome.getChildren().add(Lettering.styled(p, "mistake")));
    visit.resultProperty().get().ifPresent(this::show);
  }

  private void show(HumResult result) {
    outcome.getChildren().add(Lettering.sentence(HumHeadline.of(result), "verdict-line"));
    for (HumCause cause : result.causes()) {
      VBox card =
          new VBox(
              Lettering.styled(
                  Sentence.of(cause.strength().words() + ": " + cause.code().words()), "strong"),
              Lettering.text(Texts.of("hum.heard", Sentence.of(cause.evidence()).strip())),
              Lettering.text(Texts.of("finding.next", Sentence.of(cause.next()))));
      card.getStyleClass().add("card");
      outcome.getChildren().add(card);
    }
    result.verdict().toMind().forEach(f -> outcome.getChildren().add(new FindingCard(f)));
    outcome.getChildren().add(Lettering.heading(Texts.of("hum.levels")));
    outcome.getChildren().add(levels(result));
    outcome
        .getChildren()
        .add(Lettering.button(Texts.of("hum.page"), () -> writePage.accept(result)));
    outcome.getChildren().add(Lettering.heading(Texts.of("verdict.care")));
    SafetyNote.full().forEach(s -> outcome.getChildren().add(Lettering.faint("· " + s)));
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
