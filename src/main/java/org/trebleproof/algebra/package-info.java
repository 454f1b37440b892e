/**
 * Linear algebra where a library's takes too long or forms what nobody asks for: triangles of many
 * rows, products of rows, inverses, orthonormal columns. Arrays in, arrays out; all else is Commons
 * Math's.
 */
package org.trebleproof.algebra;
