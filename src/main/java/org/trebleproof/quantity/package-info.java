/**
 * Trade values, units, estimates, rows of a result, curves as they are read; no audio, no files.
 */
package org.trebleproof.quantity;
