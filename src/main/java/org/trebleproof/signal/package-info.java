/**
 * Pure arithmetic on sample arrays and spectra; no files, no devices, no circuits. Here lie the
 * tools that every room needs: transforms, windows, weightings, order statistics.
 */
package org.trebleproof.signal;
