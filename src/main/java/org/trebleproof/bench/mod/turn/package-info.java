/** Guitars whose controls are turned elsewhere: circuits, stops and values to take along. */
package org.trebleproof.bench.mod.turn;
