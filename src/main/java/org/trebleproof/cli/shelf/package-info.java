/** The commands of the shelf: coils kept, found again and compared. */
package org.trebleproof.cli.shelf;
