package org.trebleproof.report.file;

import java.util.Locale;
import java.util.Map;
import org.trebleproof.report.words.BatchText;
import org.trebleproof.shelf.sheet.BatchSheet;

/** A batch of coils for another program. */
public final class BatchJson {

  private BatchJson() {}

  public static String text(BatchSheet sheet) {
    return JsonTree.text(
        JsonTree.object(
            "trebleproof",
            1,
            "title",
            sheet.title(),
            "verdict",
            BatchText.headline(sheet),
            "siblings",
            sheet.families().stream().map(BatchJson::family).toList(),
            "odd",
            sheet.coils().stream()
                .filter(c -> sheet.odd().containsKey(c.name()))
                .map(
                    c ->
                        JsonTree.object(
                            "name",
                            c.name(),
                            "cause",
                            sheet.odd().get(c.name()).cause().name().toLowerCase(Locale.ROOT),
                            "size",
                            sheet.odd().get(c.name()).size().map(JsonTree::of),
                            "text",
                            BatchText.odd(sheet, c)))
                .toList(),
            "coils",
            sheet.coils().stream().map(ShelfFiles::object).toList()));
  }

  private static Map<String, Object> family(BatchSheet.Family family) {
    Map<String, Object> median = JsonTree.object();
    family
        .median()
        .forEach(
            (value, e) -> {
              Map<String, Object> one = JsonTree.of(e);
              one.put("scatter", family.spread().get(value));
              one.put("scatterOf", value.positive() ? "logarithm" : "value");
              median.put(value.code(), one);
            });
    return JsonTree.object("recipe", family.recipe(), "median", median);
  }
}
