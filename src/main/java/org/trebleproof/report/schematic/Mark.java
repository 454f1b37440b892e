package org.trebleproof.report.schematic;

import java.util.List;

/** One stroke or one word of a drawing. */
public sealed interface Mark {

  /** What it covers. Of words the width is estimated. */
  Bounds bounds();

  /** What a stroke belongs to. */
  enum Pen {
    /** A connection. */
    WIRE,
    /** The outline of a symbol, closed figures filled with the paper's colour. */
    PART,
    /** The open lines of a symbol. */
    OPEN,
    /** A filled joint. */
    DOT
  }

  /** What words say. */
  enum Ink {
    /** What a part is for. */
    ROLE,
    /** A value that is known or stated. */
    VALUE,
    /** A value that is assumed. */
    GUESS
  }

  /** A line through points. */
  record Line(Pen pen, List<Point> points) implements Mark {
    public Line {
      points = List.copyOf(points);
    }

    @Override
    public Bounds bounds() {
      return points.stream()
          .map(p -> new Bounds(p.x(), p.y(), p.x(), p.y()))
          .reduce(Bounds::and)
          .orElseThrow();
    }
  }

  /** The upper half of a circle, from left to right. */
  record Hump(Pen pen, double x, double y, double radius) implements Mark {
    @Override
    public Bounds bounds() {
      return new Bounds(x - radius, y - radius, x + radius, y);
    }
  }

  /** An upright rectangle. */
  record Box(Pen pen, double x, double y, double width, double height) implements Mark {
    @Override
    public Bounds bounds() {
      return new Bounds(x, y, x + width, y + height);
    }
  }

  /** A circle. */
  record Circle(Pen pen, double x, double y, double radius) implements Mark {
    @Override
    public Bounds bounds() {
      return new Bounds(x - radius, y - radius, x + radius, y + radius);
    }
  }

  /** Words, beginning at x on the base line y. */
  record Label(Ink ink, double x, double y, String text) implements Mark {
    private static final double LETTER = 6.4;
    private static final double HEIGHT = 12;

    @Override
    public Bounds bounds() {
      return new Bounds(x, y - HEIGHT, x + LETTER * text.length(), y + 3);
    }
  }
}
