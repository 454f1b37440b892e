/** The job while it is being written: edits, undo, keeping and restoring. Knows no window. */
package org.trebleproof.desktop.draft;
