package org.trebleproof.shelf.item;

/**
 * The level of a coil in a usual guitar, at the frequencies of every prediction.
 *
 * @param decibel levels [dB]
 * @param low lower bounds of the 95 % band [dB]
 * @param high upper bounds [dB]
 */
public record CoilCurve(double[] decibel, double[] low, double[] high) {}
