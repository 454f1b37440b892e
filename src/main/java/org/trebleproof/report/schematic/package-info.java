/** The circuit drawing as plain records, and its outputs. */
package org.trebleproof.report.schematic;
