/** The jobs of the trade: fit, compare, advise; and the job file. */
package org.trebleproof.bench;
