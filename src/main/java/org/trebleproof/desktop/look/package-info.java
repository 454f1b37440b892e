/** How the window looks: light or dark, contrast, size of type; and where that is kept. */
package org.trebleproof.desktop.look;
