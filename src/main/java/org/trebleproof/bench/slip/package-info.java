/** The single slips that people make in a job, and which of them makes everything agree. */
package org.trebleproof.bench.slip;
