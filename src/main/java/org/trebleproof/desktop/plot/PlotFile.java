package org.trebleproof.desktop.plot;

import java.io.IOException;
import java.nio.file.Path;
import javafx.embed.swing.SwingFXUtils;
import javafx.scene.SnapshotParameters;
import javafx.scene.canvas.Canvas;
import javafx.scene.image.WritableImage;
import javax.imageio.ImageIO;
import org.trebleproof.file.FilesInUse;
import org.trebleproof.file.WholeFile;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.PlotCsv;
import org.trebleproof.report.plot.SvgPlot;

/**
 * The files that a plot can be written to, each on white whatever the window looks like. Files are
 * written whole or not at all.
 */
public enum PlotFile {
  /** A drawing. */
  SVG,
  /** A picture, at twice the size in pixels. */
  PNG,
  /** The values. */
  CSV;

  private static final double SHARPNESS = 2;

  /** The file name's end. */
  String ending() {
    return "." + name().toLowerCase(java.util.Locale.ROOT);
  }

  /**
   * Writes a plot. On the screen's thread.
   *
   * @param width of the drawing [px]
   * @param height of the drawing [px]
   * @throws org.trebleproof.quantity.Refusal if it cannot be written, in one sentence
   */
  public void write(Path file, FrequencyPlot plot, double width, double height) {
    FilesInUse.alone(file);
    switch (this) {
      case SVG -> WholeFile.writeText(file, SvgPlot.alone(plot, width, height));
      case CSV -> WholeFile.writeText(file, PlotCsv.of(plot));
      case PNG -> {
        WritableImage picture = picture(plot, width, height);
        WholeFile.write(
            file,
            out -> {
              if (!ImageIO.write(SwingFXUtils.fromFXImage(picture, null), "png", out)) {
                throw new IOException("no writer for PNG");
              }
            });
      }
    }
  }

  /** The plot as a picture of twice that size. */
  static WritableImage picture(FrequencyPlot plot, double width, double height) {
    Canvas canvas = new Canvas(SHARPNESS * width, SHARPNESS * height);
    canvas.getGraphicsContext2D().scale(SHARPNESS, SHARPNESS);
    PlotPainter painter =
        new PlotPainter(PlotTheme.exported(), new TextWidths(), new CurveTracer());
    PlotGeometry geometry =
        painter.geometry(
            plot, new FrequencySpan(plot.lowHz(), plot.highHz()), plot.axis(), width, height);
    painter.paint(canvas.getGraphicsContext2D(), plot, geometry, width, height, false);
    return canvas.snapshot(new SnapshotParameters(), null);
  }
}
