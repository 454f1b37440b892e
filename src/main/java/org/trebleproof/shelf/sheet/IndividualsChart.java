package org.trebleproof.shelf.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/**
 * A chart of individuals and moving ranges (ISO 7870-2:2013): each coil by itself, in the order in
 * which they were measured, against limits that follow from how much neighbours differ.
 *
 * @param values in order
 * @param ranges between neighbours; one fewer
 * @param mean of the values
 * @param meanRange mean of the ranges
 * @param signals the rules that fire
 */
public record IndividualsChart(
    double[] values, double[] ranges, double mean, double meanRange, List<Signal> signals) {

  /** Mean range of two over the standard deviation of a normal distribution: d2 = 2 / sqrt(pi). */
  private static final double D2 = 2 / Math.sqrt(Math.PI);

  /**
   * Upper limit of a range of two over the mean range: D4 = 1 + 3 sqrt(1 - 2 / pi) / sqrt(2 / pi).
   */
  private static final double D4 = 1 + 3 * Math.sqrt(1 - 2 / Math.PI) / Math.sqrt(2 / Math.PI);

  /**
   * So many in a row on one side, or rising or falling, are no chance (ISO 7870-2; from memory).
   */
  private static final int RUN = 7;

  /** A chart of fewer says nothing. */
  public static final int LEAST = 5;

  /** What may be wrong with a process. */
  public enum Rule {
    BEYOND("beyond its limit"),
    ONE_SIDE("the last of seven in a row on one side of the mean"),
    TREND("the last of seven in a row that rise or fall"),
    JUMP("far from its neighbour");

    private final String words;

    Rule(String words) {
      this.words = words;
    }

    public String words() {
      return words;
    }
  }

  /**
   * A rule that fires.
   *
   * @param at place in the row, from 0
   */
  public record Signal(int at, Rule rule) {}

  /** Makes the chart of at least two values. */
  public static IndividualsChart of(double... values) {
    double[] ranges = new double[values.length - 1];
    double sum = values[0];
    double rangeSum = 0;
    for (int i = 1; i < values.length; i++) {
      sum += values[i];
      ranges[i - 1] = Math.abs(values[i] - values[i - 1]);
      rangeSum += ranges[i - 1];
    }
    IndividualsChart chart =
        new IndividualsChart(
            values, ranges, sum / values.length, rangeSum / ranges.length, List.of());
    return new IndividualsChart(values, ranges, chart.mean, chart.meanRange, chart.firing());
  }

  /** The rules that fire at a place in the row, from 0. */
  public List<Rule> rules(int at) {
    return signals.stream().filter(s -> s.at() == at).map(Signal::rule).toList();
  }

  /** The same in words; empty where none fires. */
  public String rulesInWords(int at) {
    return rules(at).stream().map(Rule::words).collect(Collectors.joining("; "));
  }

  private List<Signal> firing() {
    List<Signal> found = new ArrayList<>();
    int side = 0;
    int trend = 0;
    for (int i = 0; i < values.length; i++) {
      if (values[i] > high() || values[i] < low()) {
        found.add(new Signal(i, Rule.BEYOND));
      }
      int here = (int) Math.signum(values[i] - mean);
      side = here == 0 ? 0 : here * side > 0 ? side + here : here;
      if (Math.abs(side) == RUN) {
        found.add(new Signal(i, Rule.ONE_SIDE));
      }
      if (i > 0) {
        int step = (int) Math.signum(values[i] - values[i - 1]);
        trend = step == 0 ? 0 : step * trend > 0 ? trend + step : step;
        // Seven points in a row have six steps.
        if (Math.abs(trend) == RUN - 1) {
          found.add(new Signal(i, Rule.TREND));
        }
        if (ranges[i - 1] > rangeLimit()) {
          found.add(new Signal(i, Rule.JUMP));
        }
      }
    }
    return List.copyOf(found);
  }

  /** Standard deviation from one to the next. */
  public double deviation() {
    return meanRange / D2;
  }

  /** Upper limit of the values: three standard deviations above the mean. */
  public double high() {
    return mean + 3 * deviation();
  }

  public double low() {
    return mean - 3 * deviation();
  }

  /** Upper limit of the ranges. */
  public double rangeLimit() {
    return D4 * meanRange;
  }
}
