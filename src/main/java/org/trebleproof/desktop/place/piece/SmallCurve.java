package org.trebleproof.desktop.place.piece;

import java.util.Optional;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javafx.scene.control.TableCell;
import javafx.scene.shape.Polyline;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * A coil's curve as small as a word. It is asked for when its row comes into sight, and drawn if
 * the row still shows that coil when it comes.
 */
public final class SmallCurve extends TableCell<ShelvedCoil, ShelvedCoil> {

  /** Of the curve's points one in so many is drawn. */
  private static final int EVERY = 6;

  /** Highest and lowest level that has room [dB]. */
  private static final double HIGHEST = 10;

  private static final double LOWEST = -12;

  /** Size, in sizes of type. */
  private static final double WIDE = 6;

  private static final double HIGH = 1.6;

  private final BiConsumer<ShelvedCoil, Consumer<Optional<CoilCurve>>> ask;
  private final Polyline line = new Polyline();
  private Optional<CoilCurve> curve = Optional.empty();

  /** A cell that asks for what it shows. */
  public SmallCurve(BiConsumer<ShelvedCoil, Consumer<Optional<CoilCurve>>> ask) {
    this.ask = ask;
    line.getStyleClass().add("small-curve");
    fontProperty().addListener(o -> draw());
    line.setManaged(true);
    getStyleClass().add("small-curve-cell");
    setGraphic(line);
  }

  @Override
  protected void updateItem(ShelvedCoil coil, boolean empty) {
    boolean same =
        coil != null && getItem() != null && coil.measurement().equals(getItem().measurement());
    super.updateItem(coil, empty);
    setText(null);
    setGraphic(empty ? null : line);
    if (same && !empty) {
      return;
    }
    curve = Optional.empty();
    draw();
    if (coil != null && !empty) {
      ask.accept(coil, found -> draw(coil, found));
    }
  }

  private void draw(ShelvedCoil coil, Optional<CoilCurve> found) {
    if (getItem() == coil) {
      curve = found;
      draw();
    }
  }

  private void draw() {
    line.getPoints().clear();
    double type = getFont().getSize();
    double[] level = curve.map(CoilCurve::decibel).orElse(new double[0]);
    for (int i = 0; i < level.length; i += EVERY) {
      double above = Math.max(LOWEST, Math.min(HIGHEST, level[i] - level[0]));
      line.getPoints().add(WIDE * type * i / (level.length - 1.0));
      line.getPoints().add(HIGH * type * (HIGHEST - above) / (HIGHEST - LOWEST));
    }
  }
}
