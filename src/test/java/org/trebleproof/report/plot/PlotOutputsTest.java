package org.trebleproof.report.plot;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.w3c.dom.Document;

/** A plot as a file of its own, as a table, and its axes. */
class PlotOutputsTest {

  private static final double[] HZ = {100, 1000, 10000};

  private static FrequencyPlot plot() {
    return new FrequencyPlot(
        "A \"plot\" & more",
        "It falls.",
        80,
        14000,
        new ValueAxis("dB", -13, 1, 3),
        List.of(
            new Series(
                "before, measured",
                Shape.POINTS,
                Side.BEFORE,
                HZ,
                new double[] {0, -3.25, Double.NaN},
                new double[] {-0.5, -4, Double.NaN},
                new double[] {0.5, Double.NaN, Double.NaN}),
            Series.bare("after, modelled", Shape.LINE, Side.AFTER, HZ, new double[] {0, -6, -12}),
            new Series(
                "share",
                Shape.AREA,
                Side.AFTER,
                HZ,
                new double[] {0, -6, -12},
                new double[] {-1, -7, -13},
                new double[] {0, -6, -12})),
        List.of());
  }

  @Test
  void tableHoldsWhatIsKnownAndLeavesTheRestEmpty() {
    String[] lines = PlotCsv.of(plot()).split("\n");
    assertEquals("curve,known,hz,value_dB,low_dB,high_dB", lines[0]);
    assertEquals("\"before, measured\",measured,100.00000,0.00000,-0.50000,0.50000", lines[1]);
    assertEquals("\"before, measured\",measured,1000.00000,-3.25000,-4.00000,", lines[2]);
    assertEquals("\"after, modelled\",modelled,100.00000,0.00000,,", lines[3]);
    assertEquals(9, lines.length);
  }

  @Test
  void drawingStandsAlone() throws Exception {
    String svg = SvgPlot.alone(plot(), 600, 300);
    Document document =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new ByteArrayInputStream(svg.getBytes(StandardCharsets.UTF_8)));
    assertEquals("svg", document.getDocumentElement().getTagName());
    assertEquals("600", document.getDocumentElement().getAttribute("width"));
    assertEquals(1, document.getElementsByTagName("style").getLength());
    assertTrue(svg.contains("class=\"line after\""));
    assertTrue(svg.contains("class=\"band area after\""));
  }

  @Test
  void linesOfAnAxisMoveCloserWhenHardlyOneIsLeft() {
    ValueAxis whole = new ValueAxis("dB", -13, 7, 3);
    assertArrayEquals(new double[] {-12, -9, -6, -3, 0, 3, 6}, whole.lines(), 1e-9);
    assertEquals(3, whole.within(-7, 0).step());
    assertArrayEquals(new double[] {0.5, 1, 1.5, 2}, whole.within(0.4, 2.1).lines(), 1e-9);
    assertEquals("+0.5", whole.within(0.4, 2.1).label(0.5));
    assertEquals("0", whole.label(0));
    assertEquals("−12", whole.label(-12));
  }

  @Test
  void degreesHaveTheirOwnLines() {
    Series phase = Series.bare("", Shape.LINE, Side.BEFORE, HZ, new double[] {0, -80, -178});
    ValueAxis axis = ValueAxis.degrees(List.of(phase), 80, 14000);
    assertEquals("°", axis.unit());
    assertArrayEquals(new double[] {-180, -135, -90, -45, 0}, axis.lines(), 1e-9);
  }

  /** Curves over each other are told apart without colour. */
  @Test
  void noTwoSidesHaveTheSameDashes() {
    Set<String> dashes = new HashSet<>();
    for (FrequencyPlot.Side side : FrequencyPlot.Side.values()) {
      assertTrue(dashes.add(Arrays.toString(side.dashes())), side + " is drawn like another");
      assertEquals(0, side.dashes().length % 2, "strokes and gaps in turn");
    }
  }
}
