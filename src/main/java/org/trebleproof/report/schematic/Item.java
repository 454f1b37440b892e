package org.trebleproof.report.schematic;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.job.Slot;

/**
 * What belongs together on a drawing: a part with its words, a switch, or a stretch of wire.
 *
 * @param kind what it is
 * @param slot the place in the wiring, of a part
 * @param name name of the part or the pickup; of a switch its key in a plan; empty of wires
 * @param state how it stands out
 * @param marks strokes and words, those below first
 */
public record Item(Kind kind, Optional<Slot> slot, String name, State state, List<Mark> marks) {
  public Item {
    marks = List.copyOf(marks);
  }

  /** What an item is. */
  public enum Kind {
    WIRE,
    PICKUP,
    PART,
    SWITCH
  }

  /** How an item stands out. */
  public enum State {
    PLAIN,
    /** Differs between the two wirings that are compared. */
    CHANGED,
    /** Not connected in this position of the selector. */
    OFF
  }

  /** What it covers, words included. */
  public Bounds bounds() {
    return marks.stream().map(Mark::bounds).reduce(Bounds::and).orElseThrow();
  }

  /** How far a point lies from its symbol or its words; wires do not count. */
  public double distance(double x, double y) {
    return marks.stream()
        .filter(m -> !(m instanceof Mark.Line line && line.pen() == Mark.Pen.WIRE))
        .mapToDouble(m -> m.bounds().distance(x, y))
        .min()
        .orElse(Double.POSITIVE_INFINITY);
  }

  /** What its symbol covers, words and wires left out; all of it when there is nothing else. */
  public Bounds symbol() {
    return marks.stream()
        .filter(m -> !(m instanceof Mark.Label))
        .filter(m -> !(m instanceof Mark.Line line && line.pen() == Mark.Pen.WIRE))
        .map(Mark::bounds)
        .reduce(Bounds::and)
        .orElseGet(this::bounds);
  }
}
