package org.trebleproof.signal.hum;

import org.trebleproof.signal.MeanPower;

/**
 * Short packets heard through a recording, whatever their clock.
 *
 * @param perSecond packets, or trains of them, per second
 * @param share share of the time they fill
 * @param beacons whether some come every 102.4 ms, as a wireless network's beacons do
 * @param power their mean square over the whole recording
 */
public record Packets(double perSecond, double share, boolean beacons, MeanPower power) {}
