/** Filters in the time domain: minimum phase, crossfaded, and the weighting of loudness. */
package org.trebleproof.signal.filter;
