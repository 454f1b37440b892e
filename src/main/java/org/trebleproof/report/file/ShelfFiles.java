package org.trebleproof.report.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.file.CsvCell;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/** Coils of a shelf for other programs. */
public final class ShelfFiles {

  private ShelfFiles() {}

  /** As JSON. */
  public static String json(List<ShelvedCoil> coils) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof", 1, "coils", coils.stream().map(ShelfFiles::object).toList()));
  }

  static Map<String, Object> object(ShelvedCoil c) {
    Map<String, Object> values = JsonTree.object();
    for (CoilValue value : CoilValue.values()) {
      c.value(value).ifPresent(e -> values.put(value.code(), JsonTree.of(e)));
    }
    return JsonTree.object(
        "name",
        c.name(),
        "recipe",
        c.recipe(),
        "tags",
        c.tags(),
        "notes",
        c.notes(),
        "bench",
        c.circumstances().bench(),
        "who",
        c.circumstances().who(),
        "date",
        c.circumstances().date(),
        "celsius",
        c.circumstances().celsius().isPresent()
            ? c.circumstances().celsius().getAsDouble()
            : Optional.empty(),
        "program",
        c.program(),
        "verdict",
        c.state().word(),
        "reason",
        c.reason(),
        "values",
        values);
  }

  /** As a table, each value with the ends of its interval; in SI units. */
  public static String csv(List<ShelvedCoil> coils) {
    StringBuilder csv = new StringBuilder("name,recipe,bench,who,date,celsius,verdict");
    for (CoilValue value : CoilValue.values()) {
      String head = value.code() + " [" + value.unit().code() + "]";
      csv.append(',').append(head).append(',').append(value.code()).append(" low,");
      csv.append(value.code()).append(" high");
    }
    csv.append(",tags,notes,reason\n");
    for (ShelvedCoil c : coils) {
      List<String> cells = new ArrayList<>();
      cells.add(CsvCell.of(c.name()));
      cells.add(CsvCell.of(c.recipe()));
      cells.add(CsvCell.of(c.circumstances().bench()));
      cells.add(CsvCell.of(c.circumstances().who()));
      cells.add(CsvCell.of(c.circumstances().date()));
      cells.add(
          c.circumstances().celsius().isPresent()
              ? number(c.circumstances().celsius().getAsDouble())
              : "");
      cells.add(c.state().word());
      for (CoilValue value : CoilValue.values()) {
        Optional<Estimate> e = c.value(value);
        cells.add(e.map(x -> number(x.value())).orElse(""));
        cells.add(e.map(x -> number(x.low())).orElse(""));
        cells.add(e.map(x -> number(x.high())).orElse(""));
      }
      cells.add(CsvCell.of(String.join(" ", c.tags())));
      cells.add(CsvCell.of(c.notes()));
      cells.add(CsvCell.of(c.reason()));
      csv.append(String.join(",", cells)).append('\n');
    }
    return csv.toString();
  }

  private static String number(double value) {
    return Double.isFinite(value) ? String.valueOf(value) : "";
  }
}
