/**
 * The jobs of the trade from end to end: a job is read, measured, checked, fitted, and what follows
 * is said.
 */
package org.trebleproof.bench;
