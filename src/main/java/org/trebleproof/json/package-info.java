/**
 * Small JSON files read whole, and their sections key by key; what is wrong is said with its place.
 * Written so that people can read them.
 */
package org.trebleproof.json;
