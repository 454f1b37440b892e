package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.NoteName;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;

/** The evidence of strikes: each note's partials before and after, and what they changed by. */
public final class StrikePlots {

  private static final double LOW_HZ = 60;
  private static final double HIGH_HZ = 12000;
  private static final double DEEPEST = 72;

  /** Partials nearer than this are drawn as one in the difference: six to the octave. */
  private static final double TOGETHER = Math.pow(2, 1 / 6.0);

  private final StrikeEvidence evidence;

  /** Which conditions are drawn: before and after where there is a difference, else the first. */
  private final List<Integer> drawn;

  /**
   * Plots of what was heard.
   *
   * @param result of a job of strikes
   */
  public StrikePlots(FitResult result) {
    evidence = result.strikes().orElseThrow();
    List<String> conditions = evidence.conditions();
    List<String> names =
        result
            .difference()
            .map(d -> List.of(d.from(), d.to()))
            .orElse(conditions.subList(0, Math.min(2, conditions.size())));
    drawn = names.stream().map(conditions::indexOf).toList();
  }

  private StrikePlots(StrikeEvidence evidence, List<Integer> drawn) {
    this.evidence = evidence;
    this.drawn = drawn;
  }

  /** The same with another condition beside the first. */
  public StrikePlots beside(String other) {
    return new StrikePlots(evidence, List.of(drawn.get(0), evidence.conditions().indexOf(other)));
  }

  /** All that can be drawn beside the first. */
  public List<String> others() {
    List<String> others = new ArrayList<>(evidence.conditions());
    others.remove((int) drawn.get(0));
    return others;
  }

  /** Which sign is which condition, and where those are that are not drawn. */
  String legend() {
    List<String> shown = shown();
    List<String> rest = new ArrayList<>(others());
    rest.removeAll(shown);
    String words = "filled is " + shown.get(0);
    if (shown.size() > 1) {
      words += ", hollow is " + shown.get(1);
    }
    if (!rest.isEmpty()) {
      words += "; " + String.join(", ", rest) + " only in numbers";
    }
    return words;
  }

  /** Names of the one or two conditions that are drawn. */
  public List<String> shown() {
    return drawn.stream().map(evidence.conditions()::get).toList();
  }

  /** What the partials changed by, those of a sixth of an octave averaged by their scatter. */
  Series difference() {
    List<Double> hz = new ArrayList<>();
    List<Double> level = new ArrayList<>();
    for (double low = LOW_HZ; low < HIGH_HZ; low *= TOGETHER) {
      double weight = 0;
      double sum = 0;
      double at = 0;
      for (StrikeEvidence.Partial p : evidence.partials()) {
        if (p.hz() >= low && p.hz() < low * TOGETHER && Double.isFinite(change(p))) {
          double w = 1 / (changeSd(p) * changeSd(p));
          weight += w;
          sum += w * change(p);
          at += w * Math.log(p.hz());
        }
      }
      if (weight > 0) {
        hz.add(Math.exp(at / weight));
        level.add(sum / weight);
      }
    }
    // the band drawn is that of the difference; between points there is nothing to hold a band
    return new Series(
        "partials",
        Shape.POINTS,
        Side.AFTER,
        hz.stream().mapToDouble(Double::doubleValue).toArray(),
        level.stream().mapToDouble(Double::doubleValue).toArray(),
        new double[0],
        new double[0]);
  }

  private double change(StrikeEvidence.Partial p) {
    return change(p, drawn.get(1));
  }

  private double changeSd(StrikeEvidence.Partial p) {
    return changeSd(p, drawn.get(1));
  }

  private double change(StrikeEvidence.Partial p, int other) {
    return p.level()[other] - p.level()[drawn.get(0)];
  }

  private double changeSd(StrikeEvidence.Partial p, int other) {
    return Math.hypot(p.sd()[drawn.get(0)], p.sd()[other]);
  }

  /**
   * The partials of one note as a table that is opened when it is wanted: levels under every
   * condition, and what changed from the first to each other one.
   */
  String table(double note) {
    List<String> names = evidence.conditions();
    List<String> others = others();
    StringBuilder table =
        new StringBuilder("<details class=\"partials\"><summary>")
            .append(note == 0 ? "Bands" : "Partials")
            .append(" in numbers</summary>\n<div class=\"scroll\"><table>\n<thead><tr>")
            .append("<th scope=\"col\">" + (note == 0 ? "Band" : "Partial") + "</th>")
            .append("<th scope=\"col\">Hz</th>");
    names.forEach(n -> table.append("<th scope=\"col\">" + Html.text(n) + ", dB</th>"));
    for (String other : others) {
      String of = others.size() > 1 ? other + " over " + shown().get(0) : "change";
      table.append("<th scope=\"col\">" + Html.text(of) + ", dB</th>");
    }
    table.append("</tr></thead>\n<tbody>\n");
    for (StrikeEvidence.Partial p : evidence.partials()) {
      if (p.note() == note) {
        table.append("<tr>").append(Html.element("td", String.valueOf(p.number())));
        table.append(Html.element("td", String.format(Locale.ROOT, "%.0f", p.hz())));
        for (int c = 0; c < names.size(); c++) {
          table.append(Html.element("td", within(p.level()[c], p.sd()[c])));
        }
        for (String other : others) {
          int c = names.indexOf(other);
          table.append(Html.element("td", signed(change(p, c), changeSd(p, c))));
        }
        table.append("</tr>\n");
      }
    }
    return table.append("</tbody>\n</table></div></details>\n").toString();
  }

  private static String within(double value, double sd) {
    return Double.isFinite(value)
        ? String.format(Locale.ROOT, "%.1f ±%.1f", value, Estimate.NORMAL_95 * sd).replace('-', '−')
        : "not heard";
  }

  private static String signed(double value, double sd) {
    return Double.isFinite(value) ? (value >= 0.05 ? "+" : "") + within(value, sd) : "–";
  }

  /** The fundamentals of the notes, ascending; 0 for scrapes and strums. */
  public List<Double> notes() {
    return evidence.partials().stream()
        .map(StrikeEvidence.Partial::note)
        .distinct()
        .sorted()
        .toList();
  }

  /** The partials of one note before and after. */
  public FrequencyPlot note(double note) {
    List<StrikeEvidence.Partial> own =
        evidence.partials().stream().filter(p -> p.note() == note).toList();
    double[] hz = own.stream().mapToDouble(StrikeEvidence.Partial::hz).toArray();
    List<Series> series = new ArrayList<>();
    for (int s = 0; s < drawn.size(); s++) {
      int condition = drawn.get(s);
      double[] values = new double[hz.length];
      double[] low = new double[hz.length];
      double[] high = new double[hz.length];
      for (int i = 0; i < hz.length; i++) {
        values[i] = own.get(i).level()[condition];
        low[i] = values[i] - Estimate.NORMAL_95 * own.get(i).sd()[condition];
        high[i] = values[i] + Estimate.NORMAL_95 * own.get(i).sd()[condition];
      }
      series.add(
          new Series(
              shown().get(s),
              Shape.BARS,
              s == 0 ? Side.BEFORE : Side.AFTER,
              hz,
              values,
              low,
              high));
    }
    String name = note == 0 ? "Scrapes and strums, third octaves" : name(note);
    return new FrequencyPlot(
        name,
        String.format(
            Locale.ROOT,
            "%s: %d %s, strikes' own strength, colour and place taken out.",
            name,
            hz.length,
            note == 0 ? "bands" : "partials"),
        LOW_HZ,
        HIGH_HZ,
        ValueAxis.decibel(series, LOW_HZ, HIGH_HZ, DEEPEST),
        series,
        List.of());
  }

  /** The nearest note and how far it is off. */
  static String name(double hz) {
    return String.format(Locale.ROOT, "%s, %.1f Hz (%s)", NoteName.of(hz), hz, NoteName.cent(hz));
  }
}
