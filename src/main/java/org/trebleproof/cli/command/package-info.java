/** What every command is and uses: the terminal, exit codes, files to write, numbers as typed. */
package org.trebleproof.cli.command;
