package org.trebleproof.desktop.place.piece;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.layout.GridPane;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.report.words.KeyQuantities;
import org.trebleproof.report.words.RowGroups;

/** Estimates side by side; none without its interval, and an assumed one says so. */
public final class EstimateGrid {

  private static final int MOST_SETUPS = 3;

  private EstimateGrid() {}

  /** The numbers that are looked for first, a column for each setup. */
  public static GridPane key(WorkedOut verdict) {
    GridPane grid = grid();
    FitResult result = verdict.result();
    List<Subject> setups = KeyQuantities.setups(result, MOST_SETUPS);
    int row = 0;
    if (setups.size() > 1) {
      for (int i = 0; i < setups.size(); i++) {
        grid.add(Lettering.faint(setups.get(i).words()), i + 1, row);
      }
      row++;
    }
    Optional<RowKey> change = KeyQuantities.ofChange(result);
    if (change.isPresent()) {
      grid.add(Lettering.text(change.get().words()), 0, row);
      grid.add(cell(verdict, change.get()), 1, row++, Math.max(1, setups.size()), 1);
    }
    for (Quantity quantity : KeyQuantities.ofSetups(result)) {
      List<RowKey> keys = setups.stream().map(s -> RowKey.of(s, quantity)).toList();
      if (keys.stream().anyMatch(k -> result.rows().row(k).isPresent())) {
        grid.add(Lettering.text(quantity.words()), 0, row);
        for (int i = 0; i < keys.size(); i++) {
          grid.add(cell(verdict, keys.get(i)), i + 1, row);
        }
        row++;
      }
    }
    for (RowKey key : KeyQuantities.ofCoils(result)) {
      grid.add(Lettering.text(key.words()), 0, row);
      grid.add(cell(verdict, key), 1, row++, Math.max(1, setups.size()), 1);
    }
    return grid;
  }

  /** Every estimate, by what it is about. */
  public static GridPane all(WorkedOut verdict) {
    GridPane grid = grid();
    Map<String, List<FitResult.Row>> groups = RowGroups.of(verdict.result().rows());
    int line = 0;
    for (Map.Entry<String, List<FitResult.Row>> group : groups.entrySet()) {
      grid.add(Lettering.styled(group.getKey(), "strong"), 0, line++, 3, 1);
      for (FitResult.Row row : group.getValue()) {
        grid.add(Lettering.text(RowGroups.name(row.key())), 0, line);
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

  private static Node cell(WorkedOut verdict, RowKey key) {
    Optional<FitResult.Row> row = verdict.result().rows().row(key);
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
