/**
 * What was measured before, found again: {@code item} what lies on the shelf, {@code store} where
 * it is kept, {@code evening} a heap of coils measured one after the other, {@code sheet} what many
 * coils say together.
 */
package org.trebleproof.shelf;
