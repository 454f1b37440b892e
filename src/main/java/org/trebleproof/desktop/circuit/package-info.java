/** The guitar's circuit as a drawing that can be turned and changed. */
package org.trebleproof.desktop.circuit;
