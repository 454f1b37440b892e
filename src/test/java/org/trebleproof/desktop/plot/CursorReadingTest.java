package org.trebleproof.desktop.plot;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;

/** What the curves say at a cursor. */
class CursorReadingTest {

  private static final double[] HZ = {100, 1000, 10000};

  private static FrequencyPlot plot(Series... series) {
    return new FrequencyPlot(
        "t", "r", 20, 20000, new ValueAxis("dB", -13, 7, 3), List.of(series), List.of());
  }

  private static Series line(double... values) {
    double[] low = new double[values.length];
    double[] high = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      low[i] = values[i] - 0.4;
      high[i] = values[i] + 0.4;
    }
    return new Series("then", Shape.LINE, Side.AFTER, HZ, values, low, high);
  }

  @Test
  void lineIsReadBetweenItsPoints() {
    FrequencyPlot plot = plot(line(0, 2, -6));
    // Half way in the logarithm from 100 Hz to 1 kHz.
    assertEquals(1, CursorReading.of(plot, Math.sqrt(100 * 1000)).values().get(0).value(), 1e-9);
    assertEquals("+2.0 ±0.4 dB", CursorReading.of(plot, 1000).values().get(0).text());
    assertEquals("−6.0 ±0.4 dB", CursorReading.of(plot, 10000).values().get(0).text());
    assertFalse(CursorReading.of(plot, 50).values().get(0).there());
  }

  @Test
  void measuredPointIsTheNearestAndNoFurther() {
    FrequencyPlot plot =
        plot(Series.bare("m", Shape.POINTS, Side.BEFORE, HZ, new double[] {0, 2, -6}));
    CursorReading.Value near = CursorReading.of(plot, 1050).values().get(0);
    assertEquals(1000, near.hz());
    assertEquals("+2.0 dB, no interval", near.text());
    assertFalse(CursorReading.of(plot, 3000).values().get(0).there());
  }

  @Test
  void intervalBetweenTwoCursorsIsTheMostItCanBe() {
    FrequencyPlot plot = plot(line(0, 2, -6));
    CursorReading.Value a = CursorReading.of(plot, 1000).values().get(0);
    CursorReading.Value b = CursorReading.of(plot, 10000).values().get(0);
    assertEquals("−8.0 ±0.8 dB at most", b.above(a));
    assertEquals("9.00 kHz, 3.32 octaves", CursorPainter.interval(1000, 10000));
  }

  @Test
  void areaIsNoInterval() {
    Series line = line(0, 2, -6);
    Series area =
        new Series("", Shape.AREA, Side.AFTER, HZ, line.values(), line.low(), line.high());
    assertFalse(CursorReading.of(plot(area), 1000).values().get(0).there());
  }
}
