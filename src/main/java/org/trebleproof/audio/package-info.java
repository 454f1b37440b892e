/** Sound files in and out; no analysis. */
package org.trebleproof.audio;
