/** The command line: a thin face over bench. */
package org.trebleproof.cli;
