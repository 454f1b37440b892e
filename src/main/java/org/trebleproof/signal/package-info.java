/** Pure arithmetic on sample arrays and spectra; no files, no devices, no circuits. */
package org.trebleproof.signal;
