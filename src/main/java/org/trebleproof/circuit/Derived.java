package org.trebleproof.circuit;

/**
 * A value that follows from a circuit's parameters.
 *
 * @param value SI
 * @param gradient d value / d ln parameter, by slot
 */
public record Derived(double value, double[] gradient) {}
