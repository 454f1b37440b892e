package org.trebleproof.report.schematic;

/**
 * A rectangle on the drawing.
 *
 * @param left left edge
 * @param top upper edge, y growing downwards
 * @param right right edge
 * @param bottom lower edge
 */
public record Bounds(double left, double top, double right, double bottom) {

  /** How far a point lies outside; 0 inside. */
  public double distance(double x, double y) {
    double dx = Math.max(0, Math.max(left - x, x - right));
    double dy = Math.max(0, Math.max(top - y, y - bottom));
    return Math.hypot(dx, dy);
  }

  /** The smallest that holds both. */
  public Bounds and(Bounds other) {
    return new Bounds(
        Math.min(left, other.left),
        Math.min(top, other.top),
        Math.max(right, other.right),
        Math.max(bottom, other.bottom));
  }
}
