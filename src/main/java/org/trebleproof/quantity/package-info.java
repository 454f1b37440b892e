/** Trade values, units and estimates; no audio, no files. */
package org.trebleproof.quantity;
