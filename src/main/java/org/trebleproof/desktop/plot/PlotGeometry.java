package org.trebleproof.desktop.plot;

import org.trebleproof.report.plot.ValueAxis;

/**
 * Where on the drawing a frequency and a value lie.
 *
 * @param span frequencies from the left edge to the right one
 * @param axis values from the lower edge to the upper one
 */
record PlotGeometry(
    FrequencySpan span, ValueAxis axis, double left, double top, double right, double bottom) {

  double width() {
    return right - left;
  }

  double height() {
    return bottom - top;
  }

  double x(double hz) {
    return left + span.share(hz) * width();
  }

  double y(double value) {
    return bottom - (value - axis.low()) / (axis.high() - axis.low()) * height();
  }

  double hz(double x) {
    return span.at(Math.max(0, Math.min(1, (x - left) / width())));
  }

  double value(double y) {
    return axis.low() + (bottom - y) / height() * (axis.high() - axis.low());
  }

  boolean holds(double x, double y) {
    return x >= left && x <= right && y >= top && y <= bottom;
  }

  /** The value's place, or the edge of the drawing that it lies beyond. */
  double clampedY(double value) {
    return Math.max(top, Math.min(bottom, y(value)));
  }
}
