/** A change made audible, and the blind test of whether it is heard. */
package org.trebleproof.bench.mod.listen;
