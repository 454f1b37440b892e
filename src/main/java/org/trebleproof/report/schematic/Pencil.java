package org.trebleproof.report.schematic;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.job.Slot;

/**
 * Symbols after IEC 60617: a box is a resistance, two plates are a capacitance, humps are an
 * inductance, three bars are ground.
 */
final class Pencil {
  static final int LINE = 16;
  private static final int LONGEST_NAME = 16;
  private static final int LONGEST_VALUE = 15;

  private final List<Item> wires = new ArrayList<>();
  private final List<Item> parts = new ArrayList<>();
  private List<Mark> open = new ArrayList<>();

  /** All that was drawn, wires first. */
  List<Item> items() {
    List<Item> all = new ArrayList<>(wires);
    all.addAll(parts);
    return all;
  }

  /** Makes one item of what was drawn since the last. */
  void close(Item.Kind kind, Optional<Slot> slot, String name, Item.State state) {
    if (!open.isEmpty()) {
      parts.add(new Item(kind, slot, name, state, open));
      open = new ArrayList<>();
    }
  }

  /** A wire through points given as x, y, x, y and so on; in a group of its own. */
  void wire(Item.State state, double... xy) {
    wires.add(
        new Item(Item.Kind.WIRE, Optional.empty(), "", state, List.of(line(Mark.Pen.WIRE, xy))));
  }

  private static Mark.Line line(Mark.Pen pen, double... xy) {
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < xy.length; i += 2) {
      points.add(new Point(xy[i], xy[i + 1]));
    }
    return new Mark.Line(pen, points);
  }

  void dot(Item.State state, double x, double y) {
    wires.add(
        new Item(
            Item.Kind.WIRE,
            Optional.empty(),
            "",
            state,
            List.of(new Mark.Circle(Mark.Pen.DOT, x, y, 2.6))));
  }

  void ground(Item.State state, double x, double y) {
    wire(state, x, y, x, y + 8);
    for (double[] bar : new double[][] {{9, 8}, {5.5, 12}, {2, 16}}) {
      wire(state, x - bar[0], y + bar[1], x + bar[0], y + bar[1]);
    }
  }

  /** A stroke of the item being drawn. */
  void stroke(double... xy) {
    open.add(line(Mark.Pen.OPEN, xy));
  }

  /** A connection that belongs to the item being drawn. */
  void lead(double... xy) {
    open.add(line(Mark.Pen.WIRE, xy));
  }

  void box(double x, double y, double width, double height) {
    open.add(new Mark.Box(Mark.Pen.PART, x, y, width, height));
  }

  void circle(double x, double y, double radius) {
    open.add(new Mark.Circle(Mark.Pen.PART, x, y, radius));
  }

  void humps(double x, double y) {
    for (int i = 0; i < 3; i++) {
      open.add(new Mark.Hump(Mark.Pen.OPEN, x + 9 + 18 * i, y, 9));
    }
  }

  /** Two plates across an upright lead. */
  void capacitorUpright(double x, double y, double top, double bottom) {
    lead(x, top, x, y - 4);
    lead(x, y + 4, x, bottom);
    stroke(x - 10, y - 4, x + 10, y - 4);
    stroke(x - 10, y + 4, x + 10, y + 4);
  }

  /** Two plates in a lead that runs from left to right. */
  void capacitorLying(double x, double y, double left, double right) {
    lead(left, y, x - 4, y);
    lead(x + 4, y, right, y);
    stroke(x - 4, y - 10, x - 4, y + 10);
    stroke(x + 4, y - 10, x + 4, y + 10);
  }

  void resistorUpright(double x, double y, double half, double top, double bottom) {
    lead(x, top, x, y - half);
    lead(x, y + half, x, bottom);
    box(x - 7, y - half, 14, 2 * half);
  }

  void resistorLying(double x, double y, double half, double left, double right) {
    lead(left, y, x - half, y);
    lead(x + half, y, right, y);
    box(x - half, y - 7, 2 * half, 14);
  }

  /** An arrow whose point lies at the second place. */
  void arrow(double fromX, double fromY, double toX, double toY) {
    stroke(fromX, fromY, toX, toY);
    double length = Math.hypot(toX - fromX, toY - fromY);
    double ux = (toX - fromX) / length;
    double uy = (toY - fromY) / length;
    stroke(
        toX - 5.5 * ux - 3.6 * uy,
        toY - 5.5 * uy + 3.6 * ux,
        toX,
        toY,
        toX - 5.5 * ux + 3.6 * uy,
        toY - 5.5 * uy - 3.6 * ux);
  }

  void text(Mark.Ink ink, double x, double y, String words) {
    if (!words.isEmpty()) {
      open.add(new Mark.Label(ink, x, y, words));
    }
  }

  /** Role, value, name and note one below the other; a long value takes two lines. */
  void label(double x, double y, String role, Inscription words, String name) {
    Mark.Ink ink = words.guess() ? Mark.Ink.GUESS : Mark.Ink.VALUE;
    double at = y;
    List<String> value = new ArrayList<>(folded(words.value()));
    for (String[] pair : new String[][] {{role, "r"}, {"", "v"}, {shortened(name), "r"}}) {
      if (pair[1].equals("v")) {
        for (String row : value) {
          text(ink, x, at, row);
          at += LINE;
        }
      } else if (!pair[0].isEmpty()) {
        text(Mark.Ink.ROLE, x, at, pair[0]);
        at += LINE;
      }
    }
    text(Mark.Ink.GUESS, x, at, words.note());
  }

  /** Whether a value takes two lines. */
  static boolean folds(String value) {
    return value.length() > LONGEST_VALUE && value.contains(" (");
  }

  private static List<String> folded(String value) {
    int bracket = value.indexOf(" (");
    if (folds(value)) {
      return Arrays.asList(value.substring(0, bracket), value.substring(bracket + 1));
    }
    return value.isEmpty() ? List.of() : List.of(value);
  }

  private static String shortened(String name) {
    return name.length() <= LONGEST_NAME ? name : name.substring(0, LONGEST_NAME - 1) + "…";
  }
}
