/** The words on the screen, in one bundle. */
package org.trebleproof.desktop.text;
