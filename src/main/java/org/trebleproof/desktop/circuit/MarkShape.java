package org.trebleproof.desktop.circuit;

import javafx.scene.Node;
import javafx.scene.shape.Arc;
import javafx.scene.shape.ArcType;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Polyline;
import javafx.scene.shape.Rectangle;
import javafx.scene.shape.Shape;
import javafx.scene.text.Text;
import org.trebleproof.report.schematic.Mark;

/**
 * A stroke or a word of the circuit drawing as a node. Style classes: {@code circuit-wire}, {@code
 * circuit-symbol}, {@code circuit-open}, {@code circuit-dot}, {@code circuit-role}, {@code
 * circuit-value}, {@code circuit-guess}.
 */
final class MarkShape {

  private MarkShape() {}

  static Node of(Mark mark) {
    if (mark instanceof Mark.Label label) {
      Text text = new Text(label.x(), label.y(), label.text());
      text.getStyleClass()
          .add(
              switch (label.ink()) {
                case ROLE -> "circuit-role";
                case VALUE -> "circuit-value";
                case GUESS -> "circuit-guess";
              });
      return text;
    }
    if (mark instanceof Mark.Line line) {
      Polyline shape = new Polyline();
      line.points().forEach(p -> shape.getPoints().addAll(p.x(), p.y()));
      return styled(shape, line.pen());
    }
    if (mark instanceof Mark.Hump hump) {
      Arc arc = new Arc(hump.x(), hump.y(), hump.radius(), hump.radius(), 0, 180);
      arc.setType(ArcType.OPEN);
      return styled(arc, hump.pen());
    }
    if (mark instanceof Mark.Box box) {
      return styled(new Rectangle(box.x(), box.y(), box.width(), box.height()), box.pen());
    }
    Mark.Circle circle = (Mark.Circle) mark;
    return styled(new Circle(circle.x(), circle.y(), circle.radius()), circle.pen());
  }

  private static Node styled(Shape shape, Mark.Pen pen) {
    shape
        .getStyleClass()
        .add(
            switch (pen) {
              case WIRE -> "circuit-wire";
              case PART -> "circuit-symbol";
              case OPEN -> "circuit-open";
              case DOT -> "circuit-dot";
            });
    return shape;
  }
}
