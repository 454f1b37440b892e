package org.trebleproof.report.schematic;

import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A circuit drawing without its output: what is drawn where, in units of about a pixel. An SVG
 * file, a window and a test read the same records.
 *
 * @param width of the drawing
 * @param height of the drawing
 * @param title what is drawn
 * @param reading the drawing in words
 * @param items in the order of drawing, wires first
 */
public record Schematic(
    double width, double height, String title, String reading, List<Item> items) {
  private static final double REACH = 5;

  public Schematic {
    items = List.copyOf(items);
  }

  /** The part, pickup or switch whose symbol or words lie at a point; of several the nearest. */
  public Optional<Item> at(double x, double y) {
    return items.stream()
        .filter(i -> i.kind() != Item.Kind.WIRE && i.distance(x, y) <= REACH)
        .min(Comparator.comparingDouble(i -> i.distance(x, y)));
  }
}
