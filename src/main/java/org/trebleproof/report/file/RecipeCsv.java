package org.trebleproof.report.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import org.trebleproof.file.CsvCell;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.DriftChart;
import org.trebleproof.shelf.sheet.RecipeVerdict;

/** What comes of recipes, for a spreadsheet; in SI units. */
public final class RecipeCsv {

  private RecipeCsv() {}

  /** Coils judged by their recipes: each value with its interval, its verdict and its chance. */
  public static String judged(List<RecipeVerdict> verdicts) {
    Set<CoilValue> values = new TreeSet<>();
    verdicts.forEach(v -> values.addAll(v.judged().keySet()));
    StringBuilder csv =
        new StringBuilder("name,recipe,date,conformity,customer's risk,producer's risk");
    for (CoilValue value : values) {
      String code = value.code();
      csv.append("," + code + " [" + value.unit().code() + "]," + code + " low," + code + " high,");
      csv.append(code + " least," + code + " most," + code + " conformity," + code + " within");
    }
    csv.append('\n');
    for (RecipeVerdict v : verdicts) {
      List<String> cells = new ArrayList<>();
      cells.add(CsvCell.of(v.coil().name()));
      cells.add(CsvCell.of(v.coil().recipe()));
      cells.add(CsvCell.of(v.coil().circumstances().date()));
      cells.add(v.whole().word());
      cells.add(number(v.customersRisk()));
      cells.add(number(v.producersRisk()));
      for (CoilValue value : values) {
        RecipeVerdict.Judged j = v.judged().get(value);
        if (j == null) {
          cells.addAll(List.of("", "", "", "", "", "", ""));
          continue;
        }
        cells.add(j.measured().map(e -> number(e.value())).orElse(""));
        cells.add(j.measured().map(e -> number(e.low())).orElse(""));
        cells.add(j.measured().map(e -> number(e.high())).orElse(""));
        cells.add(number(j.target().value() * (1 - j.target().tolerance())));
        cells.add(number(j.target().value() * (1 + j.target().tolerance())));
        cells.add(j.verdict().word());
        cells.add(number(j.within()));
      }
      csv.append(String.join(",", cells)).append('\n');
    }
    return csv.toString();
  }

  /** A chart of individuals and moving ranges, its coils in order. */
  public static String chart(CoilValue value, DriftChart drift) {
    StringBuilder csv = new StringBuilder("name,date,bench,");
    csv.append(value.code() + " [" + value.unit().code() + "]");
    csv.append(",mean,lower limit,upper limit,moving range,mean range,range limit,rules\n");
    for (int i = 0; i < drift.coils().size(); i++) {
      ShelvedCoil coil = drift.coils().get(i);
      String rules = drift.chart().rulesInWords(i);
      csv.append(
          String.join(
              ",",
              CsvCell.of(coil.name()),
              CsvCell.of(coil.circumstances().date()),
              CsvCell.of(coil.circumstances().bench()),
              number(drift.chart().values()[i]),
              number(drift.chart().mean()),
              number(drift.chart().low()),
              number(drift.chart().high()),
              i == 0 ? "" : number(drift.chart().ranges()[i - 1]),
              number(drift.chart().meanRange()),
              number(drift.chart().rangeLimit()),
              CsvCell.of(rules)));
      csv.append('\n');
    }
    return csv.toString();
  }

  private static String number(double value) {
    return Double.isFinite(value) ? String.valueOf(value) : "";
  }
}
