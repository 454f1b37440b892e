/** The job file: what was measured, with which parts, in which setups. */
package org.trebleproof.bench.job;
