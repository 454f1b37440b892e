package org.trebleproof.desktop.place.order;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.ValueField;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;

/** Whose guitar it is, which, and where it is measured: the head of the customer's sheet. */
final class HeadingSection extends GridPane {

  private final Map<String, ValueField> fields = new LinkedHashMap<>();

  HeadingSection(Workbench bench) {
    getStyleClass().add("form");
    for (String key : List.of("customer", "instrument", "bench")) {
      String name = Texts.of("heading." + key);
      ValueField field =
          new ValueField(
                  name,
                  text -> "",
                  text -> bench.edit(Texts.of("edit.value", name), d -> d.withHeading(key, text)))
              .prompt(Texts.of("heading." + key + ".prompt"));
      field.field().setId("heading-" + key);
      GridPane.setHgrow(field, Priority.ALWAYS);
      addRow(fields.size(), Lettering.text(name), field);
      fields.put(key, field);
    }
    bench.draftProperty().addListener((o, old, now) -> show(now));
    show(bench.draftProperty().get());
  }

  private void show(Optional<JobDraft> job) {
    setDisable(job.isEmpty());
    fields.forEach((key, field) -> field.show(job.map(d -> d.heading(key)).orElse("")));
  }
}
