/** The guitar that a mod starts from: its wired circuit and what is known of its parts. */
package org.trebleproof.bench.mod.guitar;
