package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/** Coils as a table. */
public final class ShelfTable {

  /** What a table has room for. */
  public static final List<CoilValue> VALUES =
      List.of(
          CoilValue.RESISTANCE_AT_20,
          CoilValue.INDUCTANCE,
          CoilValue.CAPACITANCE,
          CoilValue.RESONANCE,
          CoilValue.PEAK,
          CoilValue.QUALITY,
          CoilValue.LOSS);

  private ShelfTable() {}

  /** The heads of the columns. */
  public static List<String> heads() {
    List<String> heads = new ArrayList<>(List.of("coil"));
    VALUES.forEach(v -> heads.add(v.head()));
    heads.addAll(List.of("verdict", "recipe", "bench", "date"));
    return heads;
  }

  /** One coil's cells, each number with its interval. */
  public static List<String> cells(ShelvedCoil c) {
    List<String> cells = new ArrayList<>(List.of(c.name()));
    VALUES.forEach(v -> cells.add(c.value(v).map(EstimateText::full).orElse("")));
    cells.add(c.state().word());
    cells.add(c.recipe());
    cells.add(c.circumstances().bench());
    cells.add(c.circumstances().date());
    return cells;
  }

  /** The table for a terminal. */
  public static List<String> lines(List<ShelvedCoil> coils, TextStyle style) {
    List<List<String>> rows = new ArrayList<>(List.of(heads()));
    coils.forEach(c -> rows.add(cells(c)));
    List<String> lines = aligned(rows, VALUES.size());
    List<String> told = new ArrayList<>(List.of(style.faint(lines.get(0))));
    for (int i = 0; i < coils.size(); i++) {
      String line = lines.get(i + 1);
      told.add(coils.get(i).state() == CoilState.GOOD ? line : style.strong(line));
    }
    return told;
  }

  /**
   * Rows with their cells one under the other.
   *
   * @param numbers how many columns behind the first stand to the right
   */
  public static List<String> aligned(List<List<String>> rows, int numbers) {
    int[] width = new int[rows.get(0).size()];
    for (List<String> row : rows) {
      for (int i = 0; i < width.length; i++) {
        width[i] = Math.max(width[i], row.get(i).length());
      }
    }
    return rows.stream()
        .map(
            row -> {
              StringBuilder line = new StringBuilder();
              for (int i = 0; i < width.length; i++) {
                String cell = row.get(i);
                char[] gap = new char[width[i] - cell.length()];
                Arrays.fill(gap, ' ');
                String blank = new String(gap);
                boolean right = i > 0 && i <= numbers;
                line.append(right ? blank + cell : cell + blank).append("  ");
              }
              return line.toString().stripTrailing();
            })
        .toList();
  }
}
