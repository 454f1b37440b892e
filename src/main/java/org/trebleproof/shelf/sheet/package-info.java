/** What many coils say together: a batch, pairs, recipes, drift, benches. */
package org.trebleproof.shelf.sheet;
