package org.trebleproof.report.file;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BenchComparison;
import org.trebleproof.shelf.sheet.DriftChart;
import org.trebleproof.shelf.sheet.IndividualsChart;
import org.trebleproof.shelf.sheet.RecipeVerdict;

/** What comes of recipes and benches, for another program. */
public final class RecipeJson {

  private RecipeJson() {}

  public static String text(List<RecipeVerdict> verdicts) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof", 1, "judged", verdicts.stream().map(RecipeJson::object).toList()));
  }

  private static Map<String, Object> object(RecipeVerdict v) {
    List<Object> values = new ArrayList<>();
    v.judged()
        .forEach(
            (value, j) ->
                values.add(
                    JsonTree.object(
                        "value",
                        value.code(),
                        "target",
                        j.target().value(),
                        "tolerance",
                        j.target().tolerance(),
                        "measured",
                        j.measured().map(JsonTree::of),
                        "conformity",
                        j.verdict().word(),
                        "within",
                        j.within())));
    return JsonTree.object(
        "name",
        v.coil().name(),
        "recipe",
        v.coil().recipe(),
        "conformity",
        v.whole().word(),
        "customersRisk",
        v.customersRisk(),
        "producersRisk",
        v.producersRisk(),
        "values",
        values);
  }

  public static String chart(CoilValue value, DriftChart drift) {
    IndividualsChart c = drift.chart();
    List<String> names = drift.names();
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "value",
            value.code(),
            "unit",
            value.unit().code(),
            "coils",
            names,
            "values",
            c.values(),
            "mean",
            c.mean(),
            "low",
            c.low(),
            "high",
            c.high(),
            "movingRanges",
            c.ranges(),
            "meanRange",
            c.meanRange(),
            "rangeLimit",
            c.rangeLimit(),
            "signals",
            c.signals().stream()
                .map(s -> JsonTree.object("coil", names.get(s.at()), "rule", s.rule().words()))
                .toList(),
            "aside",
            drift.aside().stream().map(ShelvedCoil::name).toList()));
  }

  public static String benches(String first, String second, List<BenchComparison> all) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "first",
            first,
            "second",
            second,
            "values",
            all.stream()
                .map(
                    c ->
                        JsonTree.object(
                            "value",
                            c.value().code(),
                            "coils",
                            c.coils(),
                            "offset",
                            JsonTree.of(c.offset()),
                            "differ",
                            c.differ(),
                            "leastSeen",
                            c.leastSeen(),
                            "coilsForHalf",
                            c.coilsForHalf()))
                .toList()));
  }
}
