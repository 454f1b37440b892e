/** The window in which the whole job is done without a terminal. */
package org.trebleproof.desktop;
