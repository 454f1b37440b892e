package org.trebleproof.audio.device;

/**
 * A format in which a device opens.
 *
 * @param sampleRate [Hz]
 * @param bits of one sample, two's complement: 16, 24 or 32
 * @param channels interleaved channels
 */
public record DeviceFormat(int sampleRate, int bits, int channels) {

  public DeviceFormat {
    if (sampleRate < 1 || channels < 1 || (bits != 16 && bits != 24 && bits != 32)) {
      throw new IllegalArgumentException("no such format: " + sampleRate + "/" + bits);
    }
  }

  /** Frames that last this long [s]. */
  public int frames(double seconds) {
    return (int) Math.round(seconds * sampleRate);
  }
}
