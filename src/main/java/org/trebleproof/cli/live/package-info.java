/** Commands at the interface: sweeps, recordings, calibration. */
package org.trebleproof.cli.live;
