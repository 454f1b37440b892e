package org.trebleproof.desktop.place;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.beans.binding.BooleanBinding;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.TitledPane;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.quantity.MarkedQuantity;

/** Which parts are wired in each state of the guitar that was recorded. */
final class SetupsSection extends VBox {

  /** The places of a setup, each with the kind of part that goes there. */
  private static final Map<String, String> PLACES = new LinkedHashMap<>();

  static {
    PLACES.put("pickup", "pickup");
    PLACES.put("volume", "pot");
    PLACES.put("tone", "pot");
    PLACES.put("toneCapacitor", "capacitor");
    PLACES.put("cable", "cable");
    PLACES.put("bleedCapacitor", "capacitor");
    PLACES.put("bleedResistor", "resistor");
    PLACES.put("bassCapacitor", "capacitor");
    PLACES.put("bassPot", "pot");
    PLACES.put("loadCapacitor", "capacitor");
    PLACES.put("loadResistor", "resistor");
    PLACES.put("secondPickup", "pickup");
  }

  /** Places that few guitars have: shown where they are taken, or when asked for. */
  private static final List<String> SELDOM =
      List.of(
          "bleedCapacitor",
          "bleedResistor",
          "bassCapacitor",
          "bassPot",
          "loadCapacitor",
          "loadResistor",
          "secondPickup");

  private final Workbench bench;
  private final VBox list = new VBox();
  private final Map<String, Sheet> sheets = new LinkedHashMap<>();
  private boolean showing;

  /** The controls of one setup. */
  private record Sheet(
      TitledPane pane, Map<String, ComboBox<String>> parts, ValueField dcResistance) {}

  SetupsSection(Workbench bench) {
    this.bench = bench;
    getStyleClass().add("section");
    list.getStyleClass().add("list");
    Button add = Ink.button(Texts.of("setups.add"), this::add);
    add.setId("add-setup");
    getChildren().addAll(list, add);
    bench.draftProperty().addListener((o, old, now) -> show(now));
    show(bench.draftProperty().get());
  }

  private void add() {
    bench
        .draftProperty()
        .get()
        .ifPresent(
            d -> {
              List<String> taken = d.setups();
              String name =
                  !taken.contains(Texts.of("setups.before"))
                      ? Texts.of("setups.before")
                      : Texts.of("setups.after");
              for (int n = 2; taken.contains(name); n++) {
                name = Texts.of("setups.after") + " " + n;
              }
              String fresh = name;
              bench.edit(Texts.of("edit.setup.added", fresh), job -> job.withNewSetup(fresh));
              if (sheets.containsKey(fresh)) {
                sheets.get(fresh).pane().setExpanded(true);
              }
            });
  }

  private void show(Optional<JobDraft> job) {
    showing = true;
    setDisable(job.isEmpty());
    List<String> setups = job.map(JobDraft::setups).orElse(List.of());
    if (!List.copyOf(sheets.keySet()).equals(setups)) {
      sheets.clear();
      list.getChildren().clear();
      for (String setup : setups) {
        Sheet sheet = sheet(setup);
        sheets.put(setup, sheet);
        list.getChildren().add(sheet.pane());
      }
    }
    job.ifPresent(d -> sheets.forEach((setup, sheet) -> fill(d, setup, sheet)));
    showing = false;
  }

  private Sheet sheet(String setup) {
    GridPane grid = new GridPane();
    grid.getStyleClass().add("form");
    Map<String, ComboBox<String>> boxes = new LinkedHashMap<>();
    ValueField naming =
        new ValueField(
            Texts.of("setups.name", setup),
            Markings.name(
                setup, () -> bench.draftProperty().get().map(JobDraft::setups).orElse(List.of())),
            text ->
                bench.edit(
                    Texts.of("edit.renamed", setup, text), d -> d.withSetupRenamed(setup, text)));
    naming.show(setup);
    grid.addRow(0, Ink.text(Texts.of("setups.name.title")), naming);
    CheckBox more = new CheckBox(Texts.of("setups.more"));
    more.setAccessibleText(Texts.of("setups.place", setup, Texts.of("setups.more")));
    int row = 1;
    for (String place : PLACES.keySet()) {
      ComboBox<String> box = new ComboBox<>();
      box.setMaxWidth(Double.MAX_VALUE);
      box.setId("setup-" + setup + "-" + place);
      box.setAccessibleText(Texts.of("setups.place", setup, Texts.of("setups." + place)));
      box.valueProperty()
          .addListener(
              (o, old, now) -> {
                if (!showing && now != null) {
                  place(setup, place, now);
                }
              });
      Label title = Ink.text(Texts.of("setups." + place));
      title.setLabelFor(box);
      grid.addRow(row++, title, box);
      boxes.put(place, box);
      if (SELDOM.contains(place)) {
        BooleanBinding wanted =
            more.selectedProperty()
                .or(
                    box.valueProperty()
                        .isNotNull()
                        .and(box.valueProperty().isNotEqualTo(Texts.of("setups.none"))));
        for (Node node : List.of(title, box)) {
          node.visibleProperty().bind(wanted);
          node.managedProperty().bind(wanted);
        }
      }
    }
    ValueField reading =
        new ValueField(
                Texts.of("setups.place", setup, Texts.of("setups.dcResistance")),
                Markings.optional(MarkedQuantity.DC_RESISTANCE),
                text ->
                    bench.edit(
                        Texts.of("edit.value", Texts.of("setups.dcResistance")),
                        d -> d.withSetupText(setup, "dcResistance", text)))
            .prompt(Texts.of("setups.dcResistance.prompt"));
    grid.addRow(row++, Ink.text(Texts.of("setups.dcResistance")), reading);
    grid.add(more, 0, row, 2, 1);
    HBox foot =
        new HBox(
            Ink.button(
                Texts.of("setups.remove", setup),
                () ->
                    bench.edit(Texts.of("edit.setup.removed", setup), d -> d.withoutSetup(setup))));
    foot.getStyleClass().add("foot");
    HBox.setHgrow(grid, Priority.ALWAYS);
    TitledPane pane = new TitledPane(setup, new VBox(grid, foot));
    pane.setExpanded(false);
    pane.setAnimated(false);
    return new Sheet(pane, boxes, reading);
  }

  private void place(String setup, String place, String chosen) {
    String part = chosen.equals(Texts.of("setups.none")) ? "" : chosen;
    bench.edit(
        Texts.of("edit.setup.changed", setup, Texts.of("setups." + place)),
        d -> d.withPlaced(setup, place, part));
  }

  private void fill(JobDraft job, String setup, Sheet sheet) {
    List<String> wired = new ArrayList<>();
    PLACES.forEach(
        (place, kind) -> {
          ComboBox<String> box = sheet.parts().get(place);
          List<String> choices = new ArrayList<>();
          if (!place.equals("pickup")) {
            choices.add(Texts.of("setups.none"));
          }
          choices.addAll(job.parts(kind));
          if (!box.getItems().equals(choices)) {
            box.getItems().setAll(choices);
          }
          Optional<String> part = job.placed(setup, place);
          part.ifPresent(wired::add);
          box.setValue(part.orElse(place.equals("pickup") ? null : Texts.of("setups.none")));
        });
    sheet.dcResistance().show(job.setupText(setup, "dcResistance"));
    sheet.pane().setText(setup + ": " + String.join(", ", wired));
    sheet.pane().setAccessibleText(sheet.pane().getText());
    sheet.pane().setTooltip(new Tooltip(sheet.pane().getText()));
  }
}
