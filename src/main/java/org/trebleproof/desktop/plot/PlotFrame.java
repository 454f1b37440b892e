package org.trebleproof.desktop.plot;

import javafx.beans.binding.Bindings;
import javafx.beans.property.DoubleProperty;
import javafx.scene.AccessibleRole;
import javafx.scene.Cursor;
import javafx.scene.control.Label;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.trebleproof.desktop.text.Texts;

/**
 * A plot with what it says in words under it, and a divider beneath that is drawn up or down, by
 * hand or by the arrow keys, to give it less room or more. Without that it takes its share of the
 * height in sight, so that it grows with the window.
 */
public final class PlotFrame extends VBox {

  private static final double STEP = 0.05;
  private static final double SMALLEST = 0.15;
  private static final double LARGEST = 1;

  private final Region divider = new Region();
  private double fromY;
  private double from;

  /**
   * A plot on its ground.
   *
   * @param share of the height in sight, kept by the place so that it outlasts the plot
   */
  public PlotFrame(PlotPane plot, PlotGround ground, DoubleProperty share) {
    getStyleClass().add("figure");
    plot.prefHeightProperty()
        .bind(
            Bindings.createDoubleBinding(
                () -> Math.max(plot.getMinHeight(), share.get() * ground.heightInSight().get()),
                share,
                ground.heightInSight()));
    divider.getStyleClass().add("divider");
    divider.setCursor(Cursor.V_RESIZE);
    divider.setFocusTraversable(true);
    divider.setAccessibleRole(AccessibleRole.SLIDER);
    divider.setAccessibleText(Texts.of("plot.divider", plot.plotProperty().get().title()));
    divider.setOnMousePressed(
        e -> {
          divider.requestFocus();
          fromY = e.getSceneY();
          from = share.get();
          e.consume();
        });
    divider.setOnMouseDragged(
        e -> {
          double high = Math.max(1, ground.heightInSight().get());
          share.set(held(from + (e.getSceneY() - fromY) / high));
          e.consume();
        });
    divider.addEventHandler(
        KeyEvent.KEY_PRESSED,
        e -> {
          switch (e.getCode()) {
            case UP, KP_UP -> share.set(held(share.get() - STEP));
            case DOWN, KP_DOWN -> share.set(held(share.get() + STEP));
            default -> {
              return;
            }
          }
          e.consume();
        });
    Label words = new Label();
    words.getStyleClass().add("faint");
    words.setWrapText(true);
    words.setMinHeight(Region.USE_PREF_SIZE);
    words.textProperty().bind(plot.plotProperty().map(p -> Texts.minus(p.reading())));
    getChildren().addAll(plot, words, divider);
  }

  private static double held(double share) {
    return Math.max(SMALLEST, Math.min(LARGEST, share));
  }
}
