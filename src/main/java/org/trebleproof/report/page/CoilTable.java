package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import org.trebleproof.report.page.SortedTable.Cell;
import org.trebleproof.report.page.SortedTable.Head;
import org.trebleproof.report.page.SortedTable.Row;
import org.trebleproof.report.words.ShelfTable;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/** A table of coils, with the same columns as the terminal's. */
final class CoilTable {

  private CoilTable() {}

  /**
   * The table.
   *
   * @param common rows that stay on top, such as the median
   * @param odd whether a coil is set off
   */
  static String of(List<List<String>> common, List<ShelvedCoil> coils, Predicate<ShelvedCoil> odd) {
    List<String> words = ShelfTable.heads();
    List<Head> heads = new ArrayList<>();
    for (int i = 0; i < words.size(); i++) {
      heads.add(
          isNumber(i)
              ? Head.number(words.get(i), ShelfTable.VALUES.get(i - 1).code())
              : Head.text(words.get(i)));
    }
    return SortedTable.of(
        heads,
        common.stream().map(r -> new Row(r.stream().map(Cell::text).toList(), false)).toList(),
        coils.stream().map(c -> new Row(cells(c), odd.test(c))).toList());
  }

  private static boolean isNumber(int column) {
    return column > 0 && column <= ShelfTable.VALUES.size();
  }

  private static List<Cell> cells(ShelvedCoil coil) {
    List<Cell> cells = new ArrayList<>(ShelfTable.cells(coil).stream().map(Cell::text).toList());
    for (int i = 0; i < ShelfTable.VALUES.size(); i++) {
      CoilValue value = ShelfTable.VALUES.get(i);
      cells.set(i + 1, Cell.of(coil.value(value)));
    }
    return cells;
  }
}
