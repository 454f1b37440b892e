/** What kind of coil this probably is. */
package org.trebleproof.bench.mod.identify;
