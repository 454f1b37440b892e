package org.trebleproof.desktop.plot;

import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.scene.AccessibleRole;
import javafx.scene.layout.Region;
import org.trebleproof.report.plot.FrequencyPlot;

/**
 * One plot. Its accessible text is the description's one-sentence reading. Colours come from the
 * style sheet: style class {@code plot-pane} with {@code -plot-paper}, {@code -plot-ink}, {@code
 * -plot-accent}, {@code -plot-faint}, {@code -plot-rule} and {@code -plot-hair}; text follows the
 * inherited font size.
 */
public final class PlotPane extends Region {

  private final ObjectProperty<FrequencyPlot> plot = new SimpleObjectProperty<>(this, "plot");

  /**
   * A plot.
   *
   * @param description what is drawn
   * @param group shared with the plots above and below
   */
  public PlotPane(FrequencyPlot description, PlotGroup group) {
    getStyleClass().add("plot-pane");
    setFocusTraversable(true);
    setAccessibleRole(AccessibleRole.IMAGE_VIEW);
    setMinSize(240, 140);
    setPrefSize(640, 260);
    plot.addListener((o, old, now) -> setAccessibleText(now.reading()));
    plot.set(description);
  }

  /** What is drawn; set it anew when the curve changes, zoom and cursors stay. */
  public ObjectProperty<FrequencyPlot> plotProperty() {
    return plot;
  }
}
