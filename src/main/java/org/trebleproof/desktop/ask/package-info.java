/** Asks the person for files. */
package org.trebleproof.desktop.ask;
