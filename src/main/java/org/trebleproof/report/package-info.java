/** What a result says: words, files, plots, drawings and the page; no analysis. */
package org.trebleproof.report;
