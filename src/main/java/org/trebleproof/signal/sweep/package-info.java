/**
 * Sweeps in a recording: their law, where they lie, the transfer with its variance, and whether the
 * capture is sound.
 */
package org.trebleproof.signal.sweep;
