package org.trebleproof.report.schematic;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;
import org.trebleproof.bench.job.Slot;

/**
 * Reads a drawing back as a person would: follows the wires with a finger and writes down which
 * terminals hang together. Knows nothing of how the drawing was made.
 */
final class DrawnCircuit {
  private static final double TOUCH = 0.6;

  /** A piece of conductor: the ends of a line, and everything that touches it. */
  private record Conductor(double x1, double y1, double x2, double y2) {
    boolean touches(double x, double y) {
      double length = Math.hypot(x2 - x1, y2 - y1);
      double along =
          length == 0 ? 0 : ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / (length * length);
      double t = Math.max(0, Math.min(1, along));
      return Math.hypot(x1 + t * (x2 - x1) - x, y1 + t * (y2 - y1) - y) < TOUCH;
    }

    /** Lines join where an end lies on the other line; where two lines only cross they do not. */
    boolean joins(Conductor other) {
      return touches(other.x1, other.y1)
          || touches(other.x2, other.y2)
          || other.touches(x1, y1)
          || other.touches(x2, y2);
    }
  }

  private final List<Conductor> conductors = new ArrayList<>();
  private final List<Integer> net = new ArrayList<>();

  DrawnCircuit(Schematic drawing) {
    for (Item item : drawing.items()) {
      for (Mark mark : item.marks()) {
        boolean shortCircuit = item.kind() == Item.Kind.SWITCH && item.name().equals("tap");
        boolean contact = item.kind() == Item.Kind.SWITCH && item.state() != Item.State.OFF;
        boolean jack = item.kind() == Item.Kind.WIRE;
        if (mark instanceof Mark.Line line
            && (line.pen() == Mark.Pen.WIRE || shortCircuit || contact)) {
          for (int i = 1; i < line.points().size(); i++) {
            Point a = line.points().get(i - 1);
            Point b = line.points().get(i);
            conductors.add(new Conductor(a.x(), a.y(), b.x(), b.y()));
          }
        } else if (mark instanceof Mark.Circle c && (contact || jack)) {
          conductors.add(new Conductor(c.x() - c.radius(), c.y(), c.x() + c.radius(), c.y()));
        }
      }
    }
    for (int i = 0; i < conductors.size(); i++) {
      net.add(i);
    }
    boolean changed = true;
    while (changed) {
      changed = false;
      for (int i = 0; i < conductors.size(); i++) {
        for (int j = 0; j < i; j++) {
          if (!net.get(i).equals(net.get(j)) && conductors.get(i).joins(conductors.get(j))) {
            int low = Math.min(net.get(i), net.get(j));
            int high = Math.max(net.get(i), net.get(j));
            net.replaceAll(n -> n == high ? low : n);
            changed = true;
          }
        }
      }
    }
  }

  /** Nets with a ground symbol: a bar of 18 at the end of a short upright stroke. */
  List<Integer> grounds() {
    List<Integer> grounds = new ArrayList<>();
    for (int i = 0; i < conductors.size(); i++) {
      Conductor bar = conductors.get(i);
      double middle = (bar.x1 + bar.x2) / 2;
      boolean long18 = bar.y1 == bar.y2 && Math.abs(bar.x2 - bar.x1 - 18) < 1e-9;
      if (long18
          && conductors.stream()
              .anyMatch(c -> c.x1 == c.x2 && c.x1 == middle && c.y2 == bar.y1 && c.y1 < c.y2)) {
        grounds.add(net.get(i));
      }
    }
    return grounds;
  }

  /** The net that a point of the drawing lies on; -1 for none. */
  int netAt(double x, double y) {
    for (int i = 0; i < conductors.size(); i++) {
      if (conductors.get(i).touches(x, y)) {
        return net.get(i);
      }
    }
    return -1;
  }

  /** The nets that a part's own lines lie on, each once, in the order drawn. */
  List<Integer> netsOf(Item item) {
    TreeMap<Integer, Integer> found = new TreeMap<>();
    List<Integer> order = new ArrayList<>();
    for (Mark mark : item.marks()) {
      if (mark instanceof Mark.Line line && line.pen() == Mark.Pen.WIRE) {
        Point first = line.points().get(0);
        int n = netAt(first.x(), first.y());
        if (found.put(n, n) == null) {
          order.add(n);
        }
      }
    }
    return order;
  }

  static Item part(Schematic drawing, Slot slot) {
    return drawing.items().stream()
        .filter(i -> i.slot().equals(Optional.of(slot)))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no " + slot + " is drawn"));
  }
}
