package org.trebleproof.desktop.place.piece;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.layout.GridPane;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.report.words.KeyQuantities;
import org.trebleproof.report.words.RowName;

/** Estimates side by side; none without its interval, and an assumed one says so. */
public final class EstimateGrid {

  private static final int MOST_SETUPS = 3;

  private EstimateGrid() {}

  /** The numbers that are looked for first, a column for each setup. */
  public static GridPane key(WorkedOut verdict) {
    GridPane grid = grid();
    List<String> keys = verdict.result().rows().stream().map(FitResult.Row::key).toList();
    List<String> quantities = KeyQuantities.ofSetups(verdict.result());
    List<String> setups =
        verdict.result().job().setups().keySet().stream()
            .filter(s -> quantities.stream().anyMatch(q -> keys.contains(s + "." + q)))
            .limit(MOST_SETUPS)
            .toList();
    int row = 0;
    if (setups.size() > 1) {
      for (int i = 0; i < setups.size(); i++) {
        grid.add(Lettering.faint(setups.get(i)), i + 1, row);
      }
      row++;
    }
    for (String quantity : quantities) {
      if (setups.stream().anyMatch(s -> keys.contains(s + "." + quantity))) {
        grid.add(Lettering.text(RowName.quantity("x." + quantity)), 0, row);
        for (int i = 0; i < setups.size(); i++) {
          grid.add(cell(verdict, setups.get(i) + "." + quantity), i + 1, row);
        }
        row++;
      }
    }
    for (String key : KeyQuantities.COIL) {
      if (keys.contains(key)) {
        grid.add(Lettering.text(RowName.full(key)), 0, row);
        grid.add(cell(verdict, key), 1, row++, Math.max(1, setups.size()), 1);
      }
    }
    return grid;
  }

  /** Every estimate, by what it is about. */
  public static GridPane all(WorkedOut verdict) {
    GridPane grid = grid();
    Map<String, List<FitResult.Row>> groups = new LinkedHashMap<>();
    for (FitResult.Row row : verdict.result().rows()) {
      groups.computeIfAbsent(RowName.subject(row.key()), g -> new ArrayList<>()).add(row);
    }
    int line = 0;
    for (Map.Entry<String, List<FitResult.Row>> group : groups.entrySet()) {
      grid.add(Lettering.styled(group.getKey(), "strong"), 0, line++, 3, 1);
      for (FitResult.Row row : group.getValue()) {
        String name = RowName.quantity(row.key());
        grid.add(Lettering.text(name.isEmpty() ? Texts.of("verdict.value") : name), 0, line);
        grid.add(cell(verdict, row.key()), 1, line);
        row.estimate()
            .ifPresent(
                e ->
                    grid.add(
                        Lettering.faint(EstimateText.interval(e) + ", " + e.known().word()),
                        2,
                        grid.getRowCount() - 1));
        line++;
      }
    }
    return grid;
  }

  private static Node cell(WorkedOut verdict, String key) {
    Optional<FitResult.Row> row =
        verdict.result().rows().stream().filter(r -> r.key().equals(key)).findFirst();
    if (row.isEmpty()) {
      return Lettering.faint("");
    }
    return row.get()
        .estimate()
        .map(Lettering::estimate)
        .orElseGet(() -> Lettering.styled(Texts.of("verdict.withdrawn"), "assumed"));
  }

  private static GridPane grid() {
    GridPane grid = new GridPane();
    grid.getStyleClass().add("estimates");
    return grid;
  }
}
