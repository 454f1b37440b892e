/** Plots over frequency, drawn on canvas from the same description as the page's. */
package org.trebleproof.desktop.plot;
