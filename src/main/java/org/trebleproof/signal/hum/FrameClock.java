package org.trebleproof.signal.hum;

/**
 * Frame clocks of digital radio that fall into the audible range. An audio stage rectifies the
 * packets, so it hears their envelope: a comb of lines at multiples of the clock, exact to the few
 * millionths of a crystal, where the mains wanders by a thousand times that.
 *
 * <p>Sources (from memory): ETSI EN 300 175-2, DECT, frame of 10 ms with 24 slots, some used in
 * every second frame; 3GPP TS 36.211, frame type 2, frame of 10 ms, half frames of 5 ms, subframes
 * of 1 ms; Bluetooth Core Specification, volume 2 part B, slots of 625 us, 6 of them between
 * packets of voice; IEEE 802.11, beacons usually every 100 units of 1024 us.
 */
public enum FrameClock {
  BEACONS(1 / 0.1024, "as a wireless network's beacons come"),
  TWENTY_MILLISECONDS(50, "as a digital cordless phone or a mobile modem makes them"),
  TEN_MILLISECONDS(100, "as a digital cordless phone or a mobile modem makes them"),
  FIVE_MILLISECONDS(200, "as a digital cordless phone or a mobile modem makes them"),
  SIX_SLOTS(1600.0 / 6, "as a short-range link (headset, wireless keyboard) makes them"),
  TWENTY_FOUR_SLOTS(1600.0 / 24, "as a short-range link (headset, wireless keyboard) makes them"),
  TWO_SLOTS(800, "as a short-range link (headset, wireless keyboard) makes them");

  private final double rate;
  private final String words;

  FrameClock(double rate, String words) {
    this.rate = rate;
    this.words = words;
  }

  /** Frames per second. */
  public double rate() {
    return rate;
  }

  /** What makes such frames, to follow "packets at so many per second". */
  public String words() {
    return words;
  }
}
