/** Plots over frequency: what to draw, apart from the pen that draws it. */
package org.trebleproof.report.plot;
