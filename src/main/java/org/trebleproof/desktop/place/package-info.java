/** The places of the window, one for each part of the work. */
package org.trebleproof.desktop.place;
