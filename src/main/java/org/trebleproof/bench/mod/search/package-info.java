/** Standard parts and wirings that come nearest to a wanted response. */
package org.trebleproof.bench.mod.search;
