/** A heap of coils measured one after the other, on all cores. */
package org.trebleproof.shelf.evening;
