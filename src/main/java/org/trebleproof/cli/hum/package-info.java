/** The command on recordings of silence. */
package org.trebleproof.cli.hum;
