package org.trebleproof.report.plot;

import java.util.List;

/**
 * What a plot over frequency shows, apart from the pen that draws it.
 *
 * @param title what is plotted, in a few words
 * @param reading the plot in one sentence, for those who hear it
 * @param lowHz left edge [Hz]
 * @param highHz right edge [Hz]
 * @param axis the vertical axis
 * @param series what is drawn, the lowest layer first
 * @param notes remarks that point at a place on the plot
 */
public record FrequencyPlot(
    String title,
    String reading,
    double lowHz,
    double highHz,
    ValueAxis axis,
    List<Series> series,
    List<Note> notes) {

  /** Where the frequency axis is marked [Hz]. */
  public static final List<Integer> TICKS = List.of(100, 200, 500, 1000, 2000, 5000, 10000);

  public FrequencyPlot {
    series = List.copyOf(series);
    notes = List.copyOf(notes);
  }

  /** The same curves over a part of both axes. */
  public FrequencyPlot within(double fromHz, double toHz, ValueAxis part) {
    return new FrequencyPlot(title, reading, fromHz, toHz, part, series, notes);
  }

  /**
   * Which of a pair a series belongs to, or which of several that lie over each other; each has one
   * line style everywhere, told apart by its dashes without its colour.
   */
  public enum Side {
    /** Solid line, filled points. */
    BEFORE,
    /** Dashed line, hollow points. */
    AFTER(7, 4),
    THIRD(2, 3),
    FOURTH(11, 3, 2, 3),
    FIFTH(16, 5),
    SIXTH(7, 3, 2, 3, 2, 3);

    private final double[] dashes;

    Side(double... dashes) {
      this.dashes = dashes;
    }

    /** Strokes and gaps in turn, at a page's type size [px]; none for a solid line. */
    public double[] dashes() {
      return dashes.clone();
    }

    /** The style of one of several, by its place from 0; behind the last the first comes again. */
    public static Side of(int place) {
      return values()[place % values().length];
    }
  }

  /** How it is known what a series shows. */
  public enum Shape {
    /** Points with a band: measured. */
    POINTS,
    /** Points with a bar each: measured one by one, with nothing between them. */
    BARS,
    /** Crosses: the imaginary part beside points for the real part. */
    CROSSES,
    /** A line with a band: modelled. */
    LINE,
    /** A filled area between two curves, which are the bounds of the band: a share of a loss. */
    AREA;

    /** Whether points mark it. */
    public boolean marked() {
      return this == POINTS || this == BARS || this == CROSSES;
    }
  }

  /**
   * One curve. The arrays are shared, not copied: treat them as read-only.
   *
   * @param name in the legend; empty keeps it out of the legend
   * @param shape points or line
   * @param side solid or dashed
   * @param hz frequencies, ascending [Hz]
   * @param values in the axis' unit; NaN leaves a gap
   * @param low lower bound of the 95 % band; empty array for no band
   * @param high upper bound of the band; empty array for no band
   */
  public record Series(
      String name,
      Shape shape,
      Side side,
      double[] hz,
      double[] values,
      double[] low,
      double[] high) {

    /** A series without a band. */
    public static Series bare(String name, Shape shape, Side side, double[] hz, double[] values) {
      return new Series(name, shape, side, hz, values, new double[0], new double[0]);
    }
  }

  /** A remark at a place on the plot. */
  public record Note(double hz, double value, String text) {}
}
