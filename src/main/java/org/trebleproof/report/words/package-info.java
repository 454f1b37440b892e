/** Sentences and tables, for a terminal, the page and the window. */
package org.trebleproof.report.words;
