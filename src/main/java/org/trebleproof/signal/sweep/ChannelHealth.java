package org.trebleproof.signal.sweep;

/**
 * Plain facts about one channel of a capture. Levels are relative to full scale = 1.
 *
 * @param peak largest magnitude, the constant offset taken out
 * @param rms effective value while sweeps sound
 * @param dc mean
 * @param clippedShare share of the sounding samples that sit exactly on the extreme value, where
 *     far more do than a curve that passes through leaves there; 0 for none
 * @param clipLevel that extreme value; 0 for none
 * @param silenceRms noise in the silence, hum included
 * @param silenceSpread noise of the loudest stretch of silence over that of the quietest
 * @param humRms hum in the silence
 * @param impulses single samples far out of everything around them
 */
public record ChannelHealth(
    double peak,
    double rms,
    double dc,
    double clippedShare,
    double clipLevel,
    double silenceRms,
    double silenceSpread,
    double humRms,
    int impulses) {}
