/** What takes the treble, shared out fairly among the parts, and what gives it back. */
package org.trebleproof.bench.mod.explain;
