package org.trebleproof.desktop.plot;

import java.util.HashMap;
import java.util.Map;

/**
 * What linked plots show: one span of frequencies, and of the plots that were looked at closely the
 * span of values.
 *
 * @param span frequencies; null for all there is
 * @param values by plot; a plot that is not named shows its whole axis
 */
record PlotView(FrequencySpan span, Map<Object, ValueSpan> values) {

  /** All there is. */
  static final PlotView WHOLE = new PlotView(null, Map.of());

  /** A part of a value axis. */
  record ValueSpan(double low, double high) {}

  PlotView {
    values = Map.copyOf(values);
  }

  PlotView with(FrequencySpan other) {
    return new PlotView(other, values);
  }

  PlotView with(Object plot, ValueSpan part) {
    Map<Object, ValueSpan> more = new HashMap<>(values);
    more.put(plot, part);
    return new PlotView(span, more);
  }
}
