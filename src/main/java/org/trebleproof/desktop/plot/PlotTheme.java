package org.trebleproof.desktop.plot;

import java.util.List;
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

  /** Of the third and later ones on light paper and on dark, as the page has them. */
  private static final List<Color> ON_LIGHT =
      List.of(
          Color.web("#0072b2"), Color.web("#00745a"), Color.web("#9c4f8c"), Color.web("#7a6200"));

  private static final List<Color> ON_DARK =
      List.of(
          Color.web("#56b4e9"), Color.web("#3fc79f"), Color.web("#e39bcb"), Color.web("#d8bd4a"));

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
    return switch (side) {
      case BEFORE -> ink;
      case AFTER -> accent;
      default ->
          (paper.getBrightness() < 0.5 ? ON_DARK : ON_LIGHT)
              .get(side.ordinal() - Side.THIRD.ordinal());
    };
  }

  Color area(Side side) {
    return of(side).deriveColor(0, 1, 1, 0.3);
  }

  Color band(Side side) {
    return of(side).deriveColor(0, 1, 1, 0.16);
  }
}
