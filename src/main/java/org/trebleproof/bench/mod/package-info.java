/** Before the soldering iron is hot: what a mod would do, why the treble is gone, what to fit. */
package org.trebleproof.bench.mod;
