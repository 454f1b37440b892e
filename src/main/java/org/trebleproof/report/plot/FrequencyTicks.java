package org.trebleproof.report.plot;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * Where a logarithmic frequency axis is marked: at 100, 200, 500 and so on while at least three of
 * those are in sight, then ever finer. Never in powers of ten.
 */
public final class FrequencyTicks {

  private static final int FEWEST = 3;
  private static final int MOST = 6;
  private static final double[] STEPS = {1, 2, 5};

  private FrequencyTicks() {}

  /**
   * A mark.
   *
   * @param hz where it stands [Hz]
   * @param label such as {@code 500} or {@code 1.25k}; the highest one carries the unit
   */
  public record Tick(double hz, String label) {}

  /** The marks between two frequencies [Hz]. */
  public static List<Tick> between(double lowHz, double highHz) {
    List<Double> marks = inside(FrequencyPlot.TICKS.stream().mapToDouble(t -> t), lowHz, highHz);
    if (marks.size() < FEWEST) {
      marks = inside(digits(lowHz), lowHz, highHz);
    }
    if (marks.size() < FEWEST) {
      marks = even(lowHz, highHz);
    }
    List<Tick> ticks = new ArrayList<>();
    for (int i = 0; i < marks.size(); i++) {
      String label = kilo(marks.get(i));
      ticks.add(new Tick(marks.get(i), i == marks.size() - 1 ? label + " Hz" : label));
    }
    return ticks;
  }

  /** A frequency as it is read off: {@code 82.4 Hz}, {@code 1.24 kHz}. */
  public static String text(double hz) {
    boolean kilo = hz >= 999.5;
    double shown = kilo ? hz / 1000 : hz;
    int decimals = shown < 9.995 ? 2 : shown < 99.95 ? 1 : 0;
    return String.format(Locale.ROOT, "%." + decimals + "f", shown) + (kilo ? " kHz" : " Hz");
  }

  private static java.util.stream.DoubleStream digits(double lowHz) {
    double decade = Math.pow(10, Math.floor(Math.log10(lowHz)));
    return java.util.stream.DoubleStream.of(1, 10, 100)
        .flatMap(d -> java.util.stream.IntStream.range(1, 10).mapToDouble(k -> k * d))
        .map(v -> v * decade);
  }

  private static List<Double> inside(
      java.util.stream.DoubleStream marks, double lowHz, double highHz) {
    return marks.filter(m -> m >= lowHz && m <= highHz).boxed().toList();
  }

  /** Evenly in hertz: over less than an octave that is nearly even on the axis too. */
  private static List<Double> even(double lowHz, double highHz) {
    double step = Math.pow(10, Math.floor(Math.log10((highHz - lowHz) / MOST)));
    for (double digit : STEPS) {
      if ((highHz - lowHz) / (digit * step) <= MOST) {
        step *= digit;
        break;
      }
    }
    if ((highHz - lowHz) / step > MOST) {
      step *= 10;
    }
    List<Double> marks = new ArrayList<>();
    for (double k = Math.ceil(lowHz / step); k * step <= highHz; k++) {
      marks.add(k * step);
    }
    return marks;
  }

  private static String kilo(double hz) {
    BigDecimal shown =
        new BigDecimal(hz >= 1000 ? hz / 1000 : hz).round(new MathContext(6)).stripTrailingZeros();
    return shown.toPlainString() + (hz >= 1000 ? "k" : "");
  }
}
