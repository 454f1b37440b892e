package org.trebleproof.audio;

import java.nio.file.Path;

/**
 * A sound file in memory. The arrays are shared, not copied: treat them as read-only.
 *
 * @param file where it came from
 * @param channels one array of samples per channel, full scale ±1, all of one length
 * @param sampleRate [Hz]
 * @param bits of one sample as recorded
 * @param floatingPoint whether the file holds floating-point samples (which may exceed ±1)
 */
public record Recording(
    Path file, float[][] channels, double sampleRate, int bits, boolean floatingPoint) {

  public Recording {
    if (channels.length == 0) {
      throw new IllegalArgumentException("a recording needs at least one channel");
    }
    for (float[] channel : channels) {
      if (channel.length != channels[0].length) {
        throw new IllegalArgumentException("the channels of a recording have one length");
      }
    }
  }

  /** Samples per channel. */
  public int frames() {
    return channels[0].length;
  }

  /** Length [s]. */
  public double seconds() {
    return frames() / sampleRate;
  }

  /**
   * The samples of the one channel that is wanted, where no other goes with it.
   *
   * @param number counts from 1
   * @throws SoundFileException if the file has no such channel
   */
  public float[] soleChannel(int number) {
    if (number > channels.length) {
      throw new SoundFileException(
          file,
          channels.length == 1
              ? "has one channel, but channel "
                  + number
                  + " is wanted: leave the channel number out."
              : "has channels 1 to "
                  + channels.length
                  + " only, but channel "
                  + number
                  + " is wanted: correct the channel number.");
    }
    return channel(number);
  }

  /**
   * The samples of one channel.
   *
   * @param number counts from 1
   * @throws SoundFileException if the file has no such channel
   */
  public float[] channel(int number) {
    if (number < 1 || number > channels.length) {
      throw new SoundFileException(
          file,
          "has "
              + (channels.length == 1
                  ? "one channel"
                  : "channels 1 to " + channels.length + " only")
              + ", but channel "
              + number
              + " is wanted: record the reference and the device on two channels of one file, or"
              + " correct the channel numbers.");
    }
    return channels[number - 1];
  }
}
