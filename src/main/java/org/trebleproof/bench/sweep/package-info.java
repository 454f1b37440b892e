/** Jobs of sweeps: captures read, meter readings, checks of the fit, advice on the next capture. */
package org.trebleproof.bench.sweep;
