package org.trebleproof.desktop.place.order;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.control.Label;
import javafx.scene.control.MenuButton;
import javafx.scene.control.MenuItem;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.draft.JobDraft.PartLine;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.Markings;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;

/** What is known of the parts: each with its marking, and what the recordings say of it. */
final class PartsSection extends VBox {

  private static final List<String> KINDS =
      List.of("pickup", "pot", "capacitor", "resistor", "cable");

  private static final int NAME_COLUMNS = 7;

  /** Longest name that its column shows whole. */
  private static final int LONGEST_BESIDE = 12;

  private record Line(ValueField value, Label standing) {}

  private final Workbench bench;
  private final GridPane grid = new GridPane();
  private final Map<String, Line> lines = new LinkedHashMap<>();
  private List<String> shown = List.of();

  PartsSection(Workbench bench) {
    this.bench = bench;
    getStyleClass().add("section");
    grid.getStyleClass().add("form");
    // The value takes what the name and the button leave, whatever spans them.
    ColumnConstraints value = new ColumnConstraints();
    value.setHgrow(Priority.ALWAYS);
    grid.getColumnConstraints().addAll(new ColumnConstraints(), value, new ColumnConstraints());
    MenuButton add = new MenuButton(Texts.of("parts.add"));
    add.setId("add-part");
    add.setAccessibleText(Texts.of("parts.add"));
    for (String kind : KINDS) {
      MenuItem item = new MenuItem(Texts.of("parts.kind." + kind));
      item.setOnAction(e -> add(kind));
      add.getItems().add(item);
    }
    getChildren().addAll(grid, add);
    bench.draftProperty().addListener((o, old, now) -> show(now));
    bench.verdictProperty().addListener((o, old, now) -> stand());
    show(bench.draftProperty().get());
  }

  private void add(String kind) {
    Optional<JobDraft> job = bench.draftProperty().get();
    if (job.isEmpty()) {
      return;
    }
    String base = Texts.of("parts.kind." + kind);
    List<String> taken = job.get().parts().stream().map(PartLine::name).toList();
    String name = base;
    for (int n = 2; taken.contains(name); n++) {
      name = base + " " + n;
    }
    String fresh = name;
    String usual = kind.equals("pickup") ? "" : Texts.of("parts.usual." + kind);
    bench.edit(Texts.of("edit.part.added", fresh), d -> d.withNewPart(fresh, kind, usual));
    begin(fresh);
  }

  /** Puts the keyboard on a part's value. */
  void begin(String part) {
    Line line = lines.get(part);
    if (line != null) {
      line.value().field().requestFocus();
      line.value().field().selectAll();
    }
  }

  private List<String> names() {
    return bench.draftProperty().get().map(JobDraft::parts).orElse(List.of()).stream()
        .map(PartLine::name)
        .toList();
  }

  /** The control to begin with. */
  void begin() {
    lines.keySet().stream().findFirst().ifPresent(this::begin);
  }

  private void show(Optional<JobDraft> job) {
    setDisable(job.isEmpty());
    List<PartLine> parts = job.map(JobDraft::parts).orElse(List.of());
    List<String> wanted = new ArrayList<>();
    parts.forEach(p -> wanted.add(p.kind() + " " + p.name()));
    if (!wanted.equals(shown)) {
      shown = wanted;
      rebuild(parts);
    }
    parts.forEach(p -> lines.get(p.name()).value().show(p.value()));
    stand();
  }

  private void rebuild(List<PartLine> parts) {
    grid.getChildren().clear();
    lines.clear();
    int row = 0;
    for (PartLine part : parts) {
      String name = part.name();
      boolean pickup = part.kind().equals("pickup");
      ValueField value =
          new ValueField(
                  Texts.of("parts.value", name, Texts.of("parts.kind." + part.kind())),
                  pickup
                      ? Markings.optional(part.quantity())
                      : part.kind().equals("cable")
                          ? Markings.lead()
                          : Markings.required(part.quantity()),
                  text ->
                      bench.edit(Texts.of("edit.value", name), d -> d.withPartValue(name, text)))
              .columns(6);
      if (pickup) {
        value.prompt(Texts.of("parts.pickup.prompt"));
      }
      value.field().setId("part-" + name.replace(' ', '-'));
      // Its line stays, said or not, so that nothing below moves when it is.
      Label standing = Lettering.styled("", "part-standing");
      // It fills its line and asks for no width of its own, which would squeeze the values.
      standing.setPrefWidth(1);
      standing.setMaxWidth(Double.MAX_VALUE);
      ValueField title =
          new ValueField(
              Texts.of("parts.name", name),
              Markings.name(name, this::names),
              text ->
                  bench.edit(
                      Texts.of("edit.renamed", name, text), d -> d.withPartRenamed(name, text)));
      title.columns(NAME_COLUMNS);
      title.show(name);
      title.getStyleClass().add("name-field");
      GridPane.setHgrow(value, Priority.ALWAYS);
      // A name that is too long for its column has a line of its own.
      boolean alone = name.length() > LONGEST_BESIDE;
      grid.add(title, 0, row, alone ? 2 : 1, 1);
      if (alone) {
        row++;
      }
      grid.add(value, 1, row);
      grid.add(
          Lettering.remove(
              Texts.of("parts.remove", name),
              () -> bench.edit(Texts.of("edit.part.removed", name), d -> d.withoutPart(name))),
          2,
          row);
      grid.add(standing, 0, row + 1, 3, 1);
      lines.put(name, new Line(value, standing));
      row += 2;
    }
  }

  /** Says beside each marking how it is known. */
  private void stand() {
    Optional<JobDraft> job = bench.draftProperty().get();
    Optional<WorkedOut> verdict = bench.verdictProperty().get();
    for (PartLine part : job.map(JobDraft::parts).orElse(List.of())) {
      Line line = lines.get(part.name());
      if (line != null) {
        Optional<Estimate> estimate = verdict.flatMap(v -> v.ofPart(part.name()));
        String words =
            estimate
                .filter(e -> e.known() != Known.ASSUMED)
                .map(e -> Texts.of("parts.measured", EstimateText.full(e)))
                .orElseGet(() -> assumed(part));
        line.standing().setText(words);
      }
    }
  }

  private static String assumed(PartLine part) {
    if (part.value().isEmpty()) {
      return Texts.of("parts.unread");
    }
    try {
      Marking marking = TradeNotation.marking(part.value(), part.quantity());
      return marking.stated()
          ? ""
          : Texts.of("parts.assumed", Math.round(100 * marking.tolerance()));
    } catch (TradeNotationException e) {
      return e.getMessage();
    }
  }
}
