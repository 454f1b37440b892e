package org.trebleproof.desktop.place.order;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.control.Button;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.draft.JobDraft.CaptureLine;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.Markings;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.report.page.Refused;
import org.trebleproof.report.words.Sentence;

/** The recordings: what each is of, and whether it can be used. */
final class CapturesSection extends VBox {

  /** Share of the line that the setup takes, the parts across the rest [%]. */
  private static final double SETUP = 44;

  private record Line(
      Label mark,
      Label standing,
      ValueField title,
      ComboBox<String> setup,
      MenuButton across,
      VBox reason) {}

  private final Workbench bench;
  private final Button add;
  private final VBox list = new VBox();
  private final Map<String, Line> lines = new LinkedHashMap<>();
  private boolean showing;

  CapturesSection(Workbench bench, Runnable addFiles) {
    this.bench = bench;
    getStyleClass().add("section");
    list.getStyleClass().add("list");
    add = Lettering.button(Texts.of("captures.add"), addFiles);
    getChildren().addAll(list, add);
    bench.draftProperty().addListener((o, old, now) -> show(now));
    bench.verdictProperty().addListener((o, old, now) -> judge());
    show(bench.draftProperty().get());
  }

  /** Puts the keyboard on the first capture of which nobody has said what it is of. */
  void begin() {
    lines.values().stream()
        .filter(l -> l.setup().getValue() == null)
        .findFirst()
        .or(() -> lines.values().stream().findFirst())
        .ifPresentOrElse(l -> l.setup().requestFocus(), add::requestFocus);
  }

  private void show(Optional<JobDraft> job) {
    showing = true;
    List<CaptureLine> captures = job.map(JobDraft::captures).orElse(List.of());
    List<String> ids = captures.stream().map(CaptureLine::id).toList();
    if (!List.copyOf(lines.keySet()).equals(ids)) {
      lines.clear();
      list.getChildren().clear();
      captures.forEach(this::addLine);
    }
    job.ifPresent(d -> captures.forEach(c -> fill(d, c, lines.get(c.id()))));
    showing = false;
    judge();
  }

  private void addLine(CaptureLine capture) {
    String id = capture.id();
    ValueField title =
        new ValueField(
            Texts.of("captures.name", id),
            Markings.name(
                id,
                () ->
                    bench.draftProperty().get().map(JobDraft::captures).orElse(List.of()).stream()
                        .map(CaptureLine::id)
                        .toList()),
            text ->
                bench.edit(
                    Texts.of("edit.renamed", id, text), d -> d.withCaptureRenamed(id, text)));
    title.show(id);
    title.getStyleClass().add("name-field");
    ComboBox<String> setup = new ComboBox<>();
    setup.setPromptText(Texts.of("captures.setup"));
    setup.setAccessibleText(Texts.of("captures.setup.of", id));
    setup.setMaxWidth(Double.MAX_VALUE);
    setup
        .valueProperty()
        .addListener(
            (o, old, now) -> {
              if (!showing && now != null) {
                bench.edit(Texts.of("edit.capture", id), d -> d.withCaptureSetup(id, now));
              }
            });
    MenuButton across = new MenuButton();
    across.setMaxWidth(Double.MAX_VALUE);
    across.setAccessibleText(Texts.of("captures.across.of", id));
    Label mark = new Label();
    mark.setMinWidth(Region.USE_PREF_SIZE);
    Label standing = new Label();
    standing.setMinWidth(Region.USE_PREF_SIZE);
    HBox head =
        new HBox(
            mark,
            title,
            standing,
            Lettering.remove(
                Texts.of("captures.remove", id),
                () -> bench.edit(Texts.of("edit.capture.removed", id), d -> d.withoutCapture(id))));
    HBox.setHgrow(title, Priority.ALWAYS);
    title.setMaxWidth(Double.MAX_VALUE);
    head.getStyleClass().add("head");
    GridPane choices = new GridPane();
    choices.getStyleClass().add("pair");
    choices.addRow(0, setup, across);
    choices.getColumnConstraints().addAll(share(SETUP), share(100 - SETUP));
    VBox reason = new VBox();
    VBox card = new VBox(head, choices, reason);
    card.getStyleClass().add("capture");
    list.getChildren().add(card);
    lines.put(id, new Line(mark, standing, title, setup, across, reason));
  }

  private void fill(JobDraft job, CaptureLine capture, Line line) {
    if (!line.setup().getItems().equals(job.setups())) {
      line.setup().getItems().setAll(job.setups());
    }
    line.setup().setValue(capture.setup().isEmpty() ? null : capture.setup());
    List<CheckMenuItem> items = new ArrayList<>();
    for (JobDraft.PartLine part : job.parts()) {
      if (!List.of("capacitor", "resistor", "cable").contains(part.kind())) {
        continue;
      }
      CheckMenuItem item = new CheckMenuItem(part.name());
      item.setMnemonicParsing(false);
      item.setSelected(capture.across().contains(part.name()));
      item.setOnAction(
          e -> {
            List<String> parts = new ArrayList<>(capture.across());
            parts.remove(part.name());
            if (item.isSelected()) {
              parts.add(part.name());
            }
            bench.edit(
                Texts.of("edit.capture", capture.id()), d -> d.withAcross(capture.id(), parts));
          });
      items.add(item);
    }
    line.across().getItems().setAll(items);
    line.across()
        .setText(
            capture.across().isEmpty()
                ? Texts.of("captures.across.none")
                : Texts.of("captures.across", String.join(", ", capture.across())));
  }

  private static ColumnConstraints share(double percent) {
    ColumnConstraints column = new ColumnConstraints();
    column.setPercentWidth(percent);
    return column;
  }

  /** Marks each capture as good, refused, or not heard yet. */
  private void judge() {
    Optional<WorkedOut> verdict = bench.verdictProperty().get();
    lines.forEach(
        (id, line) -> {
          Optional<CaptureEntry> entry =
              verdict.flatMap(
                  v ->
                      v.result().job().captures().stream()
                          .filter(c -> c.id().equals(id))
                          .findFirst());
          line.reason().getChildren().clear();
          String standing =
              entry.isEmpty() ? "open" : standing(verdict.get().result(), entry.get(), line);
          line.mark().setText(Texts.of("captures.mark." + standing));
          line.mark().getStyleClass().setAll("label", "mark", "mark-" + standing);
          boolean used = standing.equals("good") || standing.equals("open");
          line.standing().setText(used ? "" : Texts.of("captures.standing." + standing));
          line.standing().getStyleClass().setAll("label", "capture-standing");
        });
  }

  private static String standing(FitResult result, CaptureEntry entry, Line line) {
    Refused refused = new Refused(result);
    if (!refused.covers(entry)) {
      return "good";
    }
    refused.about(entry).stream()
        .limit(1)
        .forEach(
            f -> {
              line.reason().getChildren().add(Lettering.styled(Sentence.of(f.text()), "mistake"));
              line.reason()
                  .getChildren()
                  .add(Lettering.text(Texts.of("finding.next", Sentence.of(f.next()))));
            });
    return refused.about(entry).isEmpty() ? "unused" : "refused";
  }
}
