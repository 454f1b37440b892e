/**
 * Small JSON files read whole, and their sections key by key; what is wrong is said with its place.
 */
package org.trebleproof.json;
