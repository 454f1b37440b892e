/** Pick strikes in a recording: where they lie, their pitch, their partials. */
package org.trebleproof.signal.strike;
