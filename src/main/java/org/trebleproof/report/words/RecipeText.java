package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalDouble;
import org.trebleproof.quantity.Conformity;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.Recipe;
import org.trebleproof.shelf.sheet.BenchComparison;
import org.trebleproof.shelf.sheet.IndividualsChart;
import org.trebleproof.shelf.sheet.RecipeVerdict;

/** Recipes and what comes of them, in words. */
public final class RecipeText {

  private RecipeText() {}

  /** What a recipe wants. */
  public static String recipe(Recipe recipe) {
    List<String> targets = new ArrayList<>();
    recipe.targets().forEach((value, target) -> targets.add(value.words() + " " + target(value, target)));
    return recipe.name()
        + ": "
        + (targets.isEmpty() ? "nothing is said of what it should be" : String.join(", ", targets))
        + (recipe.wire().isEmpty() ? "" : "; wire " + recipe.wire())
        + ".";
  }

  private static String target(CoilValue value, Marking m) {
    double half = m.value() * m.tolerance();
    return EstimateText.full(
        new Estimate(m.value(), m.value() - half, m.value() + half, value.unit(), Known.ASSUMED));
  }

  /** Whether a coil is as its recipe wants it. */
  public static String verdict(RecipeVerdict v) {
    List<String> why = new ArrayList<>();
    if (v.coil().state().broken()) {
      why.add(v.coil().reason());
    }
    for (Map.Entry<CoilValue, RecipeVerdict.Judged> e : v.judged().entrySet()) {
      RecipeVerdict.Judged j = e.getValue();
      if (j.verdict() != Conformity.WITHIN && !v.coil().state().broken()) {
        why.add(
            e.getKey().words()
                + " "
                + j.measured().map(EstimateText::full).orElse("not measured")
                + (j.verdict() == Conformity.OUTSIDE ? " outside " : " undecided against ")
                + target(e.getKey(), j.target()));
      }
    }
    String risk =
        switch (v.whole()) {
          case WITHIN -> "; risk that it is outside all the same: " + percent(v.customersRisk());
          case OUTSIDE ->
              v.coil().state().broken()
                  ? ""
                  : "; risk that it is within all the same: " + percent(v.producersRisk());
          case UNDECIDED ->
              "; handed over, the customer's risk is "
                  + percent(v.customersRisk())
                  + ", thrown away, yours is "
                  + percent(v.producersRisk());
        };
    return v.coil().name()
        + ": "
        + v.whole().word()
        + (why.isEmpty() ? "" : ": " + String.join("; ", why))
        + (Double.isNaN(v.customersRisk()) ? "" : risk)
        + ".";
  }

  private static String percent(double p) {
    return p < 0.001 ? "under 0.1 %" : String.format(Locale.ROOT, "%.1f %%", 100 * p);
  }

  /**
   * Whether a winding drifts.
   *
   * @param repeat standard deviation of a measurement that is made once more; empty where no coil was
   */
  public static List<String> drift(
      CoilValue value, List<String> names, IndividualsChart chart, OptionalDouble repeat) {
    List<String> lines = new ArrayList<>();
    lines.add(
        chart.signals().isEmpty()
            ? "No sign of drift in the " + value.words() + " of " + names.size() + " coils."
            : "The " + value.words() + " does not hold still:");
    chart
        .signals()
        .forEach(
            s ->
                lines.add(
                    "  "
                        + names.get(s.at())
                        + " ("
                        + plain(value, chart.values()[s.at()])
                        + ") is "
                        + s.rule().words()
                        + "."));
    lines.add(
        "Mean "
            + plain(value, chart.mean())
            + ", limits "
            + plain(value, chart.low())
            + " to "
            + plain(value, chart.high())
            + "; neighbours differ by "
            + plain(value, chart.meanRange())
            + " on average.");
    double all = chart.deviation();
    if (repeat.isEmpty()) {
      lines.add(
          "Scatter from coil to coil: "
              + plain(value, all)
              + " (standard deviation); how much of it is measuring is known once some coils are"
              + " measured twice (--again).");
      return lines;
    }
    double measuring = repeat.getAsDouble();
    double coils = Math.sqrt(Math.max(0, all * all - measuring * measuring));
    lines.add(
        "Of the scatter from coil to coil, "
            + plain(value, all)
            + ", measuring makes "
            + plain(value, measuring)
            + " and the winding "
            + plain(value, coils)
            + " (standard deviations, as coils measured twice tell them apart).");
    return lines;
  }

  private static String plain(CoilValue value, double x) {
    double margin = 0.002 * Math.abs(x);
    return EstimateText.value(
        new Estimate(x, x - margin, x + margin, value.unit(), Known.DERIVED));
  }

  /** Whether two benches agree in a value. */
  public static String benches(BenchComparison c, String first, String second) {
    boolean ratio = c.value().positive();
    String offset =
        ratio
            ? String.format(
                Locale.ROOT,
                "%+.2f %% (%+.2f to %+.2f %%)",
                100 * (c.offset().value() - 1),
                100 * (c.offset().low() - 1),
                100 * (c.offset().high() - 1))
            : EstimateText.full(c.offset());
    String seen =
        ratio
            ? String.format(Locale.ROOT, "%.2f %%", 100 * c.leastSeen())
            : String.format(Locale.ROOT, "%.2f %s", c.leastSeen(), c.value().unit().symbol());
    return Sentence.of(c.value().words())
        .replaceFirst("\\.$", "")
        + ": \""
        + second
        + "\" reads "
        + offset
        + " off \""
        + first
        + "\" on "
        + c.coils().size()
        + " coils, "
        + (c.differ() ? "so they differ" : "so no difference is seen")
        + "; an offset of "
        + seen
        + " would be, and half of that with "
        + c.coilsForHalf()
        + " coils.";
  }
}
