package org.trebleproof.desktop.plot;

import javafx.scene.paint.Color;
import javafx.scene.text.Font;
import javafx.scene.text.FontWeight;
import org.trebleproof.report.plot.FrequencyPlot.Side;

/**
 * The colours and the type of a plot.
 *
 * @param paper ground
 * @param ink the side before, and text
 * @param accent the side after
 * @param faint marks of the axes
 * @param rule frame
 * @param hair grid
 * @param font of labels; all distances follow its size
 */
record PlotTheme(
    Color paper, Color ink, Color accent, Color faint, Color rule, Color hair, Font font) {

  private static final double EXPORT_SIZE = 12.5;

  /** On white, as an exported picture is drawn. */
  static PlotTheme exported() {
    return new PlotTheme(
        Color.WHITE,
        Color.web("#20252a"),
        Color.web("#a5311b"),
        Color.web("#666b6e"),
        Color.web("#d8d2c4"),
        Color.web("#e8e3d6"),
        Font.font("sans-serif", EXPORT_SIZE));
  }

  /** The unit of distances: the type size over that of the page's plots. */
  double em() {
    return font.getSize();
  }

  Font heading() {
    return heading(1);
  }

  Font heading(double share) {
    return Font.font(font.getFamily(), FontWeight.BOLD, font.getSize() * 1.05 * share);
  }

  Font strong() {
    return Font.font(font.getFamily(), FontWeight.BOLD, font.getSize());
  }

  Color of(Side side) {
    return side == Side.BEFORE ? ink : accent;
  }

  Color area(Side side) {
    return of(side).deriveColor(0, 1, 1, 0.3);
  }

  Color band(Side side) {
    return of(side).deriveColor(0, 1, 1, 0.16);
  }
}
