/** Coils as plain folders, which any other program reads. */
package org.trebleproof.shelf.folder;
