/** Files as such: read once, written whole, held by one process at a time. */
package org.trebleproof.file;
