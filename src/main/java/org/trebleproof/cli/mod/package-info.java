/** Commands on a guitar before it is soldered. */
package org.trebleproof.cli.mod;
