/** Silence taken apart: mains lines, bursts and packets of radio, and what hisses on. */
package org.trebleproof.signal.hum;
