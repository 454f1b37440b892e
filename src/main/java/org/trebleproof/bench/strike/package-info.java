/** Jobs of pick strikes: levels of partials, plucking points, the comparison of two sessions. */
package org.trebleproof.bench.strike;
