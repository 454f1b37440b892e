package org.trebleproof.desktop.place.piece;

import javafx.geometry.Orientation;
import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.control.Label;
import javafx.scene.layout.Region;
import javafx.scene.shape.SVGPath;
import javafx.scene.text.Text;
import javafx.scene.transform.Scale;
import org.trebleproof.desktop.text.Texts;

/** What to plug where, as a line drawing that grows with the type as far as there is room. */
public final class LineDrawing extends Region {

  /** Size of type that the drawing is made for [px]. */
  private static final double TYPE = 14;

  private static final String BODY =
      "M470 78 C470 40 505 34 535 46 C552 53 566 53 583 47 C612 37 640 50 640 78"
          + " C640 106 612 119 583 109 C566 103 552 103 535 110 C505 122 470 116 470 78 Z";

  private static final double WIDTH = 800;
  private static final double HEIGHT = 150;

  private final Label type = new Label(); // takes the size of type over from where it stands
  private final Scale scale = new Scale(1, 1);

  private LineDrawing(Group drawing, String words) {
    drawing.getTransforms().add(scale);
    drawing.setManaged(false);
    type.setManaged(false);
    type.fontProperty().addListener((o, old, now) -> requestLayout());
    getChildren().addAll(drawing, type);
    getStyleClass().add("drawing");
    setAccessibleRole(AccessibleRole.IMAGE_VIEW);
    setAccessibleText(words);
  }

  private double scale(double width) {
    return Math.min(type.getFont().getSize() / TYPE, width / WIDTH);
  }

  @Override
  public Orientation getContentBias() {
    return Orientation.HORIZONTAL;
  }

  @Override
  protected double computeMinWidth(double height) {
    return WIDTH / 4;
  }

  @Override
  protected double computePrefWidth(double height) {
    return WIDTH * type.getFont().getSize() / TYPE;
  }

  @Override
  protected double computePrefHeight(double width) {
    return HEIGHT * scale(width < 0 ? prefWidth(-1) : width);
  }

  @Override
  protected double computeMinHeight(double width) {
    return computePrefHeight(width);
  }

  @Override
  protected void layoutChildren() {
    scale.setX(scale(getWidth()));
    scale.setY(scale(getWidth()));
  }

  /** A recorder's output drives an exciter coil over the pickup; the guitar's jack goes back. */
  public static LineDrawing exciter() {
    Group g = new Group();
    recorder(g);
    guitar(g);
    line(g, "M172 34 H548 v12 M541 46 h24 v10 h-24 z M547 46 v10 M553 46 v10 M559 46 v10");
    label(g, 572, 38, Texts.of("drawing.exciter"));
    line(g, "M541 51 H400 V75 H172 M400 75 v8 M394 83 h12 v22 h-12 z M400 105 v6");
    ground(g, 400, 111);
    dot(g, 400, 75);
    label(g, 304, 98, Texts.of("drawing.sense"));
    line(g, "M498 112 v8 q0 10 -10 10 H232 q-10 0 -10 -10 v-2 H172");
    label(g, 506, 134, Texts.of("drawing.jack"));
    return new LineDrawing(g, Texts.of("drawing.exciter.words"));
  }

  /** A recorder's output goes through a known resistor to the pickup or jack. */
  public static LineDrawing series() {
    Group g = new Group();
    recorder(g);
    guitar(g);
    line(g, "M172 34 H290 M290 25 h44 v18 h-44 z M334 34 H420 V118 M420 118 H172");
    label(g, 274, 18, Texts.of("drawing.resistor"));
    line(g, "M240 34 V75 H172");
    line(g, "M420 118 v2 q0 10 10 10 h58 q10 0 10 -10 v-8");
    label(g, 506, 134, Texts.of("drawing.jack"));
    dot(g, 240, 34);
    dot(g, 420, 118);
    return new LineDrawing(g, Texts.of("drawing.series.words"));
  }

  /** The guitar's lead goes into the recorder, and nothing else does. */
  public static LineDrawing strikes() {
    Group g = new Group();
    box(g);
    guitar(g);
    port(g, 75, Texts.of("drawing.in1"));
    line(g, "M498 112 v8 q0 10 -10 10 H232 q-10 0 -10 -10 V75 H172");
    label(g, 506, 134, Texts.of("drawing.jack"));
    line(g, "M596 58 l18 5 l-5 13 q-12 -4 -13 -18 z");
    line(g, "M614 58 L648 46");
    label(g, 654, 48, Texts.of("drawing.pick"));
    return new LineDrawing(g, Texts.of("drawing.strikes.words"));
  }

  private static void recorder(Group g) {
    box(g);
    port(g, 34, Texts.of("drawing.out"));
    port(g, 75, Texts.of("drawing.in1"));
    port(g, 118, Texts.of("drawing.in2"));
  }

  private static void box(Group g) {
    line(g, "M20 14 h146 v124 h-146 z");
    label(g, 32, 36, Texts.of("drawing.recorder"));
  }

  private static void port(Group g, int y, String words) {
    line(g, "M160 " + (y - 6) + " h12 v12 h-12 z");
    label(g, 110, y + 4, words);
  }

  /** A body with a neck, a pickup under the strings and a jack. */
  private static void guitar(Group g) {
    line(g, BODY);
    line(g, "M640 69 h150 v18 h-150");
    line(g, "M500 75 H790 M500 81 H790");
    line(g, "M545 62 h16 v32 h-16 z");
    dot(g, 498, 110);
  }

  private static void ground(Group g, int x, int y) {
    line(g, "M" + (x - 9) + " " + y + " h18 M" + (x - 5) + " " + (y + 4) + " h10");
  }

  private static void line(Group g, String path) {
    SVGPath shape = new SVGPath();
    shape.setContent(path);
    shape.getStyleClass().add("drawn");
    g.getChildren().add(shape);
  }

  private static void dot(Group g, double x, double y) {
    SVGPath shape = new SVGPath();
    shape.setContent("M" + (x - 3) + " " + y + " a3 3 0 1 0 6 0 a3 3 0 1 0 -6 0 z");
    shape.getStyleClass().add("drawn-dot");
    g.getChildren().add(shape);
  }

  private static void label(Group g, double x, double y, String words) {
    Text text = new Text(x, y, words);
    text.getStyleClass().add("drawn-words");
    g.getChildren().add(text);
  }
}
