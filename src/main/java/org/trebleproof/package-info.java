/** The program's entry. */
package org.trebleproof;
