package org.trebleproof.desktop.place.order;

import java.util.List;
import java.util.Optional;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.Markings;
import org.trebleproof.desktop.place.piece.Named;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.quantity.MarkedQuantity;

/** What is connected: the fixture and the recorder's input. */
final class FixtureSection extends VBox {

  private static final List<String> KINDS = List.of("series", "exciter", "strike");

  private final ComboBox<String> kind = new ComboBox<>();
  private final ValueField resistor;
  private final ValueField inputResistance;
  private final ValueField inputCapacitance;
  private final GridPane grid = new GridPane();
  private final Label caution = Lettering.faint("");
  private boolean showing;

  FixtureSection(Workbench bench) {
    getStyleClass().add("section");
    kind.getItems().setAll(KINDS);
    kind.setAccessibleText(Texts.of("fixture.kind"));
    kind.setConverter(new Named("fixture.kind."));
    kind.setPromptText(Texts.of("fixture.kind.none"));
    kind.setMaxWidth(Double.MAX_VALUE);
    kind.setId("fixture-kind");
    kind.valueProperty()
        .addListener(
            (o, old, now) -> {
              if (!showing && now != null) {
                bench.edit(Texts.of("edit.fixture"), d -> d.withFixtureKind(now));
              }
            });
    resistor =
        new ValueField(
                Texts.of("fixture.resistor"),
                Markings.optional(MarkedQuantity.SERIES_RESISTOR),
                text ->
                    bench.edit(
                        Texts.of("edit.value", Texts.of("fixture.resistor")),
                        d -> d.withFixture("seriesResistance", text)))
            .prompt(Texts.of("fixture.resistor.prompt"));
    inputResistance = input(bench, "resistance", MarkedQuantity.INPUT_RESISTANCE);
    inputCapacitance = input(bench, "capacitance", MarkedQuantity.INPUT_CAPACITANCE);
    grid.getStyleClass().add("form");
    getChildren().addAll(kind, grid, caution);
    bench.draftProperty().addListener((o, old, now) -> show(now));
    show(bench.draftProperty().get());
  }

  private static ValueField input(Workbench bench, String key, MarkedQuantity quantity) {
    String name = Texts.of("fixture.input." + key);
    return new ValueField(
            name,
            Markings.optional(quantity),
            text -> bench.edit(Texts.of("edit.value", name), d -> d.withInput(key, text)))
        .prompt(Texts.of("fixture.input." + key + ".prompt"));
  }

  /** The control to begin with. */
  void begin() {
    kind.requestFocus();
  }

  private void show(Optional<JobDraft> job) {
    showing = true;
    setDisable(job.isEmpty());
    String current = job.map(JobDraft::fixtureKind).orElse("");
    kind.setValue(KINDS.contains(current) ? current : null);
    resistor.show(job.map(d -> d.fixtureText("seriesResistance")).orElse(""));
    inputResistance.show(job.map(d -> d.inputText("resistance")).orElse(""));
    inputCapacitance.show(job.map(d -> d.inputText("capacitance")).orElse(""));
    grid.getChildren().clear();
    int row = 0;
    if (current.equals("series")) {
      grid.addRow(row++, Lettering.text(Texts.of("fixture.resistor")), resistor);
    }
    grid.addRow(row++, Lettering.text(Texts.of("fixture.input.resistance")), inputResistance);
    grid.addRow(row, Lettering.text(Texts.of("fixture.input.capacitance")), inputCapacitance);
    caution.setText(KINDS.contains(current) ? Texts.of("fixture.caution." + current) : "");
    caution.setVisible(!caution.getText().isEmpty());
    caution.setManaged(caution.isVisible());
    showing = false;
  }
}
