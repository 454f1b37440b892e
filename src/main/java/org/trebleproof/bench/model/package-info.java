/**
 * The models of a job: coils and setups, the ladder of coil models, what is known of each part, and
 * the rows that follow.
 */
package org.trebleproof.bench.model;
