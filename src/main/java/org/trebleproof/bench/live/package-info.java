/** Measuring live: play the sweep, record the answer, check it, fit it, repeat. */
package org.trebleproof.bench.live;
