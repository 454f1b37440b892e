/** Sound devices: what there is, and playing and recording through it at the same time. */
package org.trebleproof.audio.device;
