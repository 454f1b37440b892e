package org.trebleproof.desktop.place;

import javafx.scene.AccessibleRole;
import javafx.scene.Group;
import javafx.scene.layout.StackPane;
import javafx.scene.shape.SVGPath;
import javafx.scene.text.Text;
import org.trebleproof.desktop.text.Texts;

/** What to plug where, as a line drawing. */
final class LineDrawing {

  private LineDrawing() {}

  /** A recorder's output drives an exciter coil over the pickup; the guitar's jack goes back. */
  static StackPane exciter() {
    Group g = new Group();
    recorder(g);
    guitar(g, 300);
    // output to the exciter coil: out along the top, a coil over the strings
    line(g, "M150 34 H330 q14 0 14 14 v22");
    line(g, "M330 70 h28 M330 75 h28 M330 80 h28 M330 65 h28");
    label(g, 190, 24, Texts.of("drawing.out"));
    label(g, 366, 74, Texts.of("drawing.exciter"));
    // sense resistor to input 1
    line(g, "M150 62 H240 v-10 h24 v20 h-24 v-10 M264 62 h40 v-14 h26");
    label(g, 212, 90, Texts.of("drawing.sense"));
    // guitar's jack to input 2
    line(g, "M150 118 H420 q16 0 16 -16 v-4");
    label(g, 190, 136, Texts.of("drawing.jack"));
    return sheet(g, Texts.of("drawing.exciter.words"));
  }

  /** A recorder's output goes through a known resistor to the pickup or jack. */
  static StackPane series() {
    Group g = new Group();
    recorder(g);
    guitar(g, 300);
    line(g, "M150 34 H210 v-9 h44 v18 h-44 v-9 M254 34 h150 q32 0 32 32 v32");
    label(g, 206, 18, Texts.of("drawing.resistor"));
    line(g, "M186 34 v28 H150");
    label(g, 158, 80, Texts.of("drawing.in1"));
    line(g, "M282 34 v84 H150");
    label(g, 158, 136, Texts.of("drawing.in2"));
    dot(g, 186, 34);
    dot(g, 282, 34);
    return sheet(g, Texts.of("drawing.series.words"));
  }

  private static void recorder(Group g) {
    line(g, "M20 12 h130 v126 h-130 z");
    label(g, 34, 34, Texts.of("drawing.recorder"));
    port(g, 34);
    port(g, 62);
    port(g, 118);
    label(g, 112, 46, "");
  }

  private static void port(Group g, int y) {
    line(g, "M144 " + (y - 6) + " h12 v12 h-12 z");
  }

  /** A body with a neck, a pickup under the strings and a jack. */
  private static void guitar(Group g, int x) {
    line(
        g,
        "M"
            + x
            + " 100 c-10 -34 24 -48 52 -36 c26 10 34 4 54 -6 c34 -16 60 8 56 40"
            + " c-4 34 -38 46 -66 34 c-22 -10 -36 -8 -52 0 c-24 10 -38 -8 -44 -32 z");
    line(g, "M" + (x + 156) + " 84 h150 v16 h-150");
    line(g, "M" + (x + 34) + " 80 h16 v30 h-16 z");
    line(g, "M" + (x + 20) + " 88 h286 M" + (x + 20) + " 95 h286");
    dot(g, x + 136, 98);
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

  private static StackPane sheet(Group drawing, String words) {
    StackPane pane = new StackPane(drawing);
    pane.getStyleClass().add("drawing");
    pane.setAccessibleRole(AccessibleRole.IMAGE_VIEW);
    pane.setAccessibleText(words);
    return pane;
  }
}
