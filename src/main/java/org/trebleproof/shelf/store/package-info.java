/** Where the shelf is kept: a file, or a data base that several benches share. */
package org.trebleproof.shelf.store;
