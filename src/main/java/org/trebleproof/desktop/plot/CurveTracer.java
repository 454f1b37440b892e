package org.trebleproof.desktop.plot;

import java.util.Arrays;
import javafx.scene.canvas.GraphicsContext;
import org.trebleproof.report.plot.FrequencyPlot.Series;

/**
 * Traces a curve with no more corners than there are columns of pixels: of the points in one column
 * the first, the lowest, the highest and the last are kept, so that no spike is lost. The arrays
 * are used again for every curve.
 */
final class CurveTracer {

  /** Beyond the drawing by this nothing changes any more [px]. */
  private static final double FAR = 2000;

  /** Less than this within a column is not to be seen [px]. */
  private static final double UNSEEN = 0.6;

  /** Columns of a band's edge: it is pale, and smooth enough so [px]. */
  private static final double BAND_COLUMN = 2;

  private double[] x = new double[1 << 12];
  private double[] y = new double[1 << 12];
  private int n;

  /** Strokes the values, leaving gaps where there are none. */
  void line(GraphicsContext gc, Series series, PlotGeometry g) {
    int first = first(series.hz(), g.span().lowHz());
    int end = end(series.hz(), g.span().highHz());
    int from = first;
    for (int i = first; i <= end; i++) {
      if (i == end || !Double.isFinite(series.values()[i])) {
        n = 0;
        run(series.hz(), series.values(), from, i, g);
        if (n > 1) {
          gc.strokePolyline(x, y, n);
        }
        from = i + 1;
      }
    }
  }

  /** Fills between the bounds of the band. */
  void band(GraphicsContext gc, Series series, PlotGeometry g) {
    if (series.low().length == 0) {
      return;
    }
    int first = first(series.hz(), g.span().lowHz());
    int end = end(series.hz(), g.span().highHz());
    int from = first;
    for (int i = first; i <= end; i++) {
      if (i == end
          || !Double.isFinite(series.values()[i])
          || !Double.isFinite(series.low()[i])
          || !Double.isFinite(series.high()[i])) {
        n = 0;
        if (i - from > 1) {
          edge(series.hz(), series.high(), from, i, g, true);
          int upper = n;
          edge(series.hz(), series.low(), from, i, g, false);
          reverse(upper, n);
          gc.fillPolygon(x, y, n);
        }
        from = i + 1;
      }
    }
  }

  private void run(double[] hz, double[] values, int from, int to, PlotGeometry g) {
    int i = from;
    while (i < to) {
      double startX = g.x(hz[i]);
      double column = Math.floor(startX);
      double startY = place(values[i], g);
      double low = startY;
      double high = startY;
      double lastX = startX;
      double lastY = startY;
      int count = 1;
      for (i++; i < to; i++) {
        double nextX = g.x(hz[i]);
        if (Math.floor(nextX) != column) {
          break;
        }
        lastX = nextX;
        lastY = place(values[i], g);
        low = Math.min(low, lastY);
        high = Math.max(high, lastY);
        count++;
      }
      add(startX, startY);
      if (high - low < UNSEEN) {
        continue;
      }
      if (low < Math.min(startY, lastY)) {
        add(startX, low);
      }
      if (high > Math.max(startY, lastY)) {
        add(lastX, high);
      }
      if (count > 1) {
        add(lastX, lastY);
      }
    }
  }

  /** The outermost value of each column of pixels. */
  private void edge(double[] hz, double[] values, int from, int to, PlotGeometry g, boolean upper) {
    int i = from;
    while (i < to) {
      double at = g.x(hz[i]);
      double column = Math.floor(at / BAND_COLUMN);
      double outermost = place(values[i], g);
      for (i++; i < to && Math.floor(g.x(hz[i]) / BAND_COLUMN) == column; i++) {
        double next = place(values[i], g);
        outermost = upper ? Math.min(outermost, next) : Math.max(outermost, next);
      }
      add(at, outermost);
    }
  }

  private static double place(double value, PlotGeometry g) {
    return Math.max(g.top() - FAR, Math.min(g.bottom() + FAR, g.y(value)));
  }

  private void add(double atX, double atY) {
    if (n == x.length) {
      x = Arrays.copyOf(x, 2 * n);
      y = Arrays.copyOf(y, 2 * n);
    }
    x[n] = atX;
    y[n++] = atY;
  }

  private void reverse(int from, int to) {
    for (int a = from, b = to - 1; a < b; a++, b--) {
      double keptX = x[a];
      double keptY = y[a];
      x[a] = x[b];
      y[a] = y[b];
      x[b] = keptX;
      y[b] = keptY;
    }
  }

  /** The last point left of the drawing, so that the line enters it. */
  static int first(double[] hz, double lowHz) {
    int at = Arrays.binarySearch(hz, lowHz);
    return Math.max(0, at >= 0 ? at : -at - 2);
  }

  /** One past the first point right of the drawing. */
  static int end(double[] hz, double highHz) {
    int at = Arrays.binarySearch(hz, highHz);
    return Math.min(hz.length, at >= 0 ? at + 1 : -at);
  }
}
