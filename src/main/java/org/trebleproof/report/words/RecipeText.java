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
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.DriftChart;
import org.trebleproof.shelf.sheet.IndividualsChart;
import org.trebleproof.shelf.sheet.RecipeVerdict;

/** Recipes and what comes of them, in words. */
public final class RecipeText {

  private RecipeText() {}

  /** What a recipe wants. */
  public static String recipe(Recipe recipe) {
    List<String> targets = new ArrayList<>();
    recipe
        .targets()
        .forEach((value, target) -> targets.add(value.words() + " " + target(value, target)));
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
      why.add(Sentence.unended(v.coil().reason()));
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
   * @param repeat standard deviation of a measurement that is made once more; empty where no coil
   *     was
   */
  public static List<String> drift(CoilValue value, DriftChart drift, OptionalDouble repeat) {
    IndividualsChart chart = drift.chart();
    List<String> names = drift.names();
    List<String> lines = new ArrayList<>();
    lines.add(
        chart.signals().isEmpty()
            ? "No sign of drift in the " + value.words() + " of " + names.size() + " coils."
            : "The " + value.words() + " does not hold still:");
    for (int i = 0; i < names.size(); i++) {
      List<String> rules = chart.rules(i).stream().map(IndividualsChart.Rule::words).toList();
      if (!rules.isEmpty()) {
        lines.add(
            "  "
                + names.get(i)
                + " ("
                + plain(value, chart.values()[i])
                + ") is "
                + Sentence.listed(rules)
                + ".");
      }
    }
    for (ShelvedCoil coil : drift.aside()) {
      lines.add(
          "  Left out, as it is no drift: "
              + coil.name()
              + ". "
              + BatchText.odd(drift.batch(), coil)
                  .orElse("Its " + value.words() + " was not told."));
    }
    lines.add(
        "Mean "
            + plain(value, chart.mean())
            + ", limits "
            + plain(value, chart.low())
            + " to "
            + plain(value, chart.high())
            + "; neighbours differ by "
            + rough(value, chart.meanRange())
            + " on average.");
    double all = chart.deviation();
    if (repeat.isEmpty()) {
      lines.add(
          "Scatter from coil to coil: "
              + rough(value, all)
              + " (standard deviation); how much of it is measuring is known once some coils are"
              + " measured twice (--again).");
      return lines;
    }
    double measuring = repeat.getAsDouble();
    double coils = Math.sqrt(Math.max(0, all * all - measuring * measuring));
    lines.add(
        "Of the scatter from coil to coil, "
            + rough(value, all)
            + ", measuring makes "
            + rough(value, measuring)
            + " and the winding "
            + rough(value, coils)
            + " (standard deviations, as coils measured twice tell them apart).");
    return lines;
  }

  /** A value that is read off a chart. */
  public static String plain(CoilValue value, double x) {
    return within(value, x, 0.002);
  }

  /** A standard deviation is known to two figures at most. */
  public static String rough(CoilValue value, double x) {
    return within(value, x, 0.04);
  }

  private static String within(CoilValue value, double x, double share) {
    double margin = share * Math.abs(x);
    return EstimateText.value(new Estimate(x, x - margin, x + margin, value.unit(), Known.DERIVED));
  }

  /** What a whole batch comes to, before its coils one by one. */
  public static String summary(List<RecipeVerdict> verdicts) {
    int[] counts = new int[Conformity.values().length];
    double bad = 0;
    for (RecipeVerdict v : verdicts) {
      counts[v.whole().ordinal()]++;
      bad += v.whole() == Conformity.WITHIN ? v.customersRisk() : 0;
    }
    return Sentence.counted(verdicts.size(), "coil")
        + ": "
        + counts[Conformity.WITHIN.ordinal()]
        + " within, "
        + counts[Conformity.OUTSIDE.ordinal()]
        + " outside, "
        + counts[Conformity.UNDECIDED.ordinal()]
        + " undecided"
        + (counts[Conformity.WITHIN.ordinal()] == 0
            ? ""
            : String.format(Locale.ROOT, "; of those within, %.2f are expected to be outside", bad))
        + ".";
  }
}
