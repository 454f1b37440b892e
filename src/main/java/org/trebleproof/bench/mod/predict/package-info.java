/** What a change of wiring does to the response, and whether anybody hears it. */
package org.trebleproof.bench.mod.predict;
