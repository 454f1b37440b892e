/** Pieces that several places of the window use. */
package org.trebleproof.desktop.place.piece;
