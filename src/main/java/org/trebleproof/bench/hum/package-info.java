/** The hum and ground check: from ten seconds of silence to a cause and a next step. */
package org.trebleproof.bench.hum;
