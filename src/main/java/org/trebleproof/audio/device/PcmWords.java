package org.trebleproof.audio.device;

/** Samples of full scale ±1 as interleaved little-endian two's complement words, and back. */
final class PcmWords {

  private final int bytes;
  private final int channels;
  private final double full;

  PcmWords(DeviceFormat format) {
    bytes = format.bits() / 8;
    channels = format.channels();
    full = Math.scalb(1.0, format.bits() - 1);
  }

  int frameBytes() {
    return bytes * channels;
  }

  void encode(float[][] block, int frames, byte[] words) {
    for (int c = 0; c < channels; c++) {
      int p = c * bytes;
      for (int i = 0; i < frames; i++, p += channels * bytes) {
        double scaled = Math.rint(block[c][i] * full);
        int word = (int) Math.max(-full, Math.min(full - 1, scaled));
        for (int b = 0; b < bytes; b++) {
          words[p + b] = (byte) (word >> 8 * b);
        }
      }
    }
  }

  void decode(byte[] words, float[][] block, int frames) {
    for (int c = 0; c < channels; c++) {
      int p = c * bytes;
      for (int i = 0; i < frames; i++, p += channels * bytes) {
        int word = words[p + bytes - 1];
        for (int b = bytes - 2; b >= 0; b--) {
          word = word << 8 | words[p + b] & 0xff;
        }
        block[c][i] = (float) (word / full);
      }
    }
  }
}
