package org.trebleproof.desktop.place.order;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.control.Button;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.SetupToStrike;
import org.trebleproof.desktop.work.Workbench;

/** Which parts are wired in each state of the guitar that was recorded. */
final class SetupsSection extends VBox {

  private final Workbench bench;
  private final VBox list = new VBox();
  private final Map<String, SetupSheet> sheets = new LinkedHashMap<>();

  SetupsSection(Workbench bench) {
    this.bench = bench;
    getStyleClass().add("section");
    list.getStyleClass().add("list");
    Button add = Lettering.button(Texts.of("setups.add"), this::add);
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
              String fresh = SetupToStrike.freshName(d.setups());
              bench.edit(Texts.of("edit.setup.added", fresh), job -> job.withNewSetup(fresh));
              if (sheets.containsKey(fresh)) {
                sheets.get(fresh).setExpanded(true);
              }
            });
  }

  /** Opens a setup and puts the keyboard on one of its places. */
  void begin(String setup, String key) {
    SetupSheet sheet =
        sheets.getOrDefault(setup, sheets.values().stream().findFirst().orElse(null));
    if (sheet != null) {
      sheet.begin(key);
    }
  }

  private void show(Optional<JobDraft> job) {
    setDisable(job.isEmpty());
    List<String> setups = job.map(JobDraft::setups).orElse(List.of());
    if (!List.copyOf(sheets.keySet()).equals(setups)) {
      sheets.clear();
      setups.forEach(setup -> sheets.put(setup, new SetupSheet(bench, setup)));
      list.getChildren().setAll(sheets.values());
    }
    job.ifPresent(d -> sheets.values().forEach(sheet -> sheet.show(d)));
  }
}
