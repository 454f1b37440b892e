/**
 * The command line: a thin face over bench. It finds the subcommand and turns what went wrong into
 * a sentence.
 */
package org.trebleproof.cli;
