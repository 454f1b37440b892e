package org.trebleproof.report.schematic;

/**
 * A place on the drawing.
 *
 * @param x to the right
 * @param y downwards
 */
public record Point(double x, double y) {}
