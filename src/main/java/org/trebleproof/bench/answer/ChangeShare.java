package org.trebleproof.bench.answer;

import org.trebleproof.bench.job.WiringChange;
import org.trebleproof.quantity.Estimate;

/**
 * What one of several changes does to the level where all of them together do most.
 *
 * @param change what was changed
 * @param level what it adds there, less than nothing where it takes away [dB]; the shares add up
 */
public record ChangeShare(WiringChange change, Estimate level) {}
