package org.trebleproof.signal.sweep;

/**
 * A later sweep of a capture against its first.
 *
 * @param sweep which one, the first is 0
 * @param gain ln of the transfer's magnitude ratio
 * @param gainSd its standard deviation
 * @param delay extra delay of the transfer [s]
 * @param delaySd its standard deviation [s]
 * @param chiSquare reduced chi-square of what gain and delay leave of the transfer's change
 * @param referenceDeviation largest relative deviation of the reference's own spectrum from the
 *     first sweep's, over a grid step, gain and delay taken out; NaN where it cannot be compared
 */
public record RepeatComparison(
    int sweep,
    double gain,
    double gainSd,
    double delay,
    double delaySd,
    double chiSquare,
    double referenceDeviation) {}
