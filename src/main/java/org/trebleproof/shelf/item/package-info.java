/** What lies on the shelf, as records. */
package org.trebleproof.shelf.item;
