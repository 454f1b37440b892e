package org.trebleproof.circuit;

/**
 * The values of a probe and their sensitivities. The arrays are shared, not copied: treat them as
 * read-only.
 *
 * @param hz frequencies [Hz]
 * @param re real parts
 * @param im imaginary parts
 * @param dRe real parts of d value / d ln parameter, {@code [slot][frequency]}, slots as in {@link
 *     Circuit#parameters()}; no rows where only values were asked for
 * @param dIm imaginary parts of the same
 */
public record Analysis(double[] hz, double[] re, double[] im, double[][] dRe, double[][] dIm) {}
