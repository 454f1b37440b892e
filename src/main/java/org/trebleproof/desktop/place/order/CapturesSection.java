package org.trebleproof.desktop.place.order;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
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

  private record Line(
      HBox mark, ValueField title, ComboBox<String> setup, MenuButton across, VBox reason) {}

  private final Workbench bench;
  private final VBox list = new VBox();
  private final Map<String, Line> lines = new LinkedHashMap<>();
  private boolean showing;

  CapturesSection(Workbench bench, Runnable addFiles) {
    this.bench = bench;
    getStyleClass().add("section");
    list.getStyleClass().add("list");
    getChildren().addAll(list, Lettering.button(Texts.of("captures.add"), addFiles));
    bench.draftProperty().addListener((o, old, now) -> show(now));
    bench.verdictProperty().addListener((o, old, now) -> judge());
    bench.workingProperty().addListener((o, old, now) -> judge());
    show(bench.draftProperty().get());
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
    HBox mark = new HBox();
    mark.getStyleClass().add("mark");
    HBox head =
        new HBox(
            mark,
            title,
            Lettering.remove(
                Texts.of("captures.remove", id),
                () -> bench.edit(Texts.of("edit.capture.removed", id), d -> d.withoutCapture(id))));
    HBox.setHgrow(title, Priority.ALWAYS);
    title.setMaxWidth(Double.MAX_VALUE);
    head.getStyleClass().add("head");
    GridPane choices = new GridPane();
    choices.getStyleClass().add("pair");
    choices.addRow(0, setup, across);
    GridPane.setHgrow(setup, Priority.ALWAYS);
    GridPane.setHgrow(across, Priority.ALWAYS);
    VBox reason = new VBox();
    VBox card = new VBox(head, choices, reason);
    card.getStyleClass().add("capture");
    list.getChildren().add(card);
    lines.put(id, new Line(mark, title, setup, across, reason));
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

  /** Marks each capture as good, refused, or not heard yet. */
  private void judge() {
    Optional<WorkedOut> verdict =
        bench.workingProperty().get() ? Optional.empty() : bench.verdictProperty().get();
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
          Label words = Lettering.styled(Texts.of("captures.mark." + standing), "mark-" + standing);
          words.setWrapText(false);
          line.mark().getChildren().setAll(words);
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
