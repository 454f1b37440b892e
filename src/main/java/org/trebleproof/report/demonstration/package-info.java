/** A guitar as a page that is heard and turned: one file, with circuit and sound inside. */
package org.trebleproof.report.demonstration;
