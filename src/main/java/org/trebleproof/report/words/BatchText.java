package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.BatchSheet;
import org.trebleproof.shelf.sheet.OddCoil;

/** A batch of coils, in words. */
public final class BatchText {

  private BatchText() {}

  /** The sheet for a terminal. */
  public static List<String> lines(BatchSheet sheet, TextStyle style) {
    List<String> lines = new ArrayList<>();
    lines.add(style.strong(headline(sheet)));
    for (ShelvedCoil coil : sheet.coils()) {
      odd(sheet, coil).ifPresent(why -> lines.add("  " + coil.name() + ": " + why));
    }
    lines.add("");
    List<List<String>> rows = rows(sheet);
    List<String> table = ShelfTable.aligned(rows, ShelfTable.VALUES.size());
    lines.add(style.faint(table.get(0)));
    lines.addAll(table.subList(1, table.size()));
    return lines;
  }

  /** What the batch is, in a sentence. */
  public static String headline(BatchSheet sheet) {
    int odd = sheet.odd().size();
    return sheet.title()
        + ": "
        + Sentence.counted(sheet.coils().size(), "coil")
        + (sheet.recipes() > 1 ? " of " + sheet.recipes() + " recipes" : "")
        + (sheet.families().isEmpty()
            ? ", too few whole ones to be held against each other"
            : odd == 0
                ? sheet.recipes() > 1 ? ", each as its siblings" : ", all alike"
                : ", " + odd + " unlike " + (odd == 1 ? "its" : "their") + " siblings")
        + ".";
  }

  private static List<List<String>> rows(BatchSheet sheet) {
    List<List<String>> rows = new ArrayList<>(List.of(ShelfTable.heads()));
    rows.addAll(common(sheet));
    sheet.coils().forEach(c -> rows.add(ShelfTable.cells(c)));
    return rows;
  }

  /** Median and scatter of each recipe, as rows of the table. */
  public static List<List<String>> common(BatchSheet sheet) {
    List<List<String>> rows = new ArrayList<>();
    int width = ShelfTable.heads().size();
    for (BatchSheet.Family family : sheet.families()) {
      List<String> median = new ArrayList<>(List.of("median"));
      List<String> spread = new ArrayList<>(List.of("scatter"));
      for (CoilValue value : ShelfTable.VALUES) {
        median.add(
            Optional.ofNullable(family.median().get(value)).map(EstimateText::full).orElse(""));
        spread.add(
            Optional.ofNullable(family.spread().get(value)).map(s -> scatter(value, s)).orElse(""));
      }
      for (List<String> row : List.of(median, spread)) {
        row.addAll(List.of("", family.recipe()));
        while (row.size() < width) {
          row.add("");
        }
        rows.add(row);
      }
    }
    return rows;
  }

  private static String scatter(CoilValue value, double s) {
    return value.positive()
        ? String.format(Locale.ROOT, "%.1f %%", 100 * s)
        : String.format(Locale.ROOT, "%.2f %s", s, value.unit().symbol());
  }

  /** Why a coil is unlike its siblings; empty for one that is not. */
  public static Optional<String> odd(BatchSheet sheet, ShelvedCoil coil) {
    return Optional.ofNullable(sheet.odd().get(coil.name())).map(o -> why(o, coil));
  }

  private static String why(OddCoil odd, ShelvedCoil coil) {
    return switch (odd.cause()) {
      case BROKEN, UNMEASURED -> coil.reason();
      case TURNS -> percent(odd.size(), "turns", "more", "fewer") + " than its siblings.";
      case WIRE ->
          "Other wire: "
              + percent(odd.size(), "resistance", "more", "less")
              + " than its siblings at the same inductance.";
      case CORE ->
          "Other magnet or core: "
              + percent(odd.size(), "inductance", "more", "less")
              + " than its siblings at the same resistance.";
      case CAPACITANCE ->
          percent(odd.size(), "winding capacitance", "more", "less")
              + " than its siblings: another lead, or wound in another way.";
      case LOSS ->
          percent(odd.size(), "loss", "more", "less")
              + " than its siblings: other core, cover or base plate; where it is more, look for"
              + " turns that are shorted.";
      case SEVERAL ->
          "Neither its turns nor its wire nor its core alone make it differ: look at what it is.";
    };
  }

  private static String percent(Optional<Estimate> size, String thing, String more, String less) {
    Estimate e = size.orElseThrow();
    boolean up = e.value() > 1;
    double a = 100 * Math.abs(e.value() - 1);
    double half = 100 * e.halfWidth();
    String number =
        half < 0.1 * a
            ? String.format(Locale.ROOT, "%.0f %%", a)
            : String.format(Locale.ROOT, "%.0f ±%.0f %%", a, Math.max(1, half));
    return number + " " + (up ? more : less) + " " + thing;
  }
}
