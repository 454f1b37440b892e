package org.trebleproof.audio;

import java.io.IOException;
import java.nio.file.Path;

/**
 * How the samples of an interleaved file are stored.
 *
 * @param channels interleaved channels
 * @param sampleRate [Hz]
 * @param bytes of one sample
 * @param bits of one sample that carry sound
 * @param floatingPoint IEEE 754 numbers instead of two's complement integers
 * @param bigEndian most significant byte first
 */
record SampleFormat(
    int channels,
    double sampleRate,
    int bytes,
    int bits,
    boolean floatingPoint,
    boolean bigEndian) {

  private static final int MOST_CHANNELS = 256;
  // Slower or faster than any recorder; such a rate is a damaged header.
  private static final double LEAST_RATE = 1000;
  private static final double MOST_RATE = 2e6;
  private static final int BLOCK = 1 << 16;

  /** Refuses formats that cannot be, or that are too coarse to measure with. */
  static void check(ByteSource source, long channels, double sampleRate, int bits) {
    if (channels < 1 || channels > MOST_CHANNELS) {
      throw source.refuse(
          "claims to have " + channels + " channels: its header is damaged; export it again.");
    }
    if (!(sampleRate >= LEAST_RATE) || sampleRate > MOST_RATE) {
      throw source.refuse(
          "claims a sample rate of "
              + Math.round(sampleRate)
              + " Hz: its header is damaged or the rate is wrong; export it again at the rate it"
              + " was recorded with.");
    }
    if (bits == 8) {
      throw source.refuse("has 8 bits, too coarse to measure with: record with 16 bits or more.");
    }
    if (bits < 8 || bits > 64) {
      throw source.refuse(
          "claims samples of "
              + bits
              + " bits: its header is damaged; export it again as WAV, 24 bits.");
    }
  }

  /** Refuses a file of more samples than fit into memory. */
  static void checkFits(Path file, long frames, int channels) {
    long bytes = frames > Long.MAX_VALUE / 4096 ? Long.MAX_VALUE : frames * channels * 4;
    if (frames > Integer.MAX_VALUE - 16 || bytes > Runtime.getRuntime().maxMemory() * 0.75) {
      throw new SoundFileException(
          file,
          "is too long to hold in memory ("
              + bytes / 1_000_000
              + " MB of samples): cut out the part with the sweeps.");
    }
  }

  /** Reads {@code frames} frames from where the source stands. */
  void read(ByteSource source, long frames, SoundSink sink) throws IOException {
    if (frames == 0) {
      throw source.refuse("holds no sound: record it again.");
    }
    sink.begin(channels, frames, sampleRate, bits, floatingPoint);
    int frameBytes = channels * bytes;
    int blockFrames = Math.max(1, BLOCK / frameBytes);
    byte[] block = new byte[blockFrames * frameBytes];
    float[][] samples = new float[channels][blockFrames];
    boolean wanted = true;
    for (long at = 0; at < frames && wanted; at += blockFrames) {
      int count = (int) Math.min(blockFrames, frames - at);
      source.bytes(block, count * frameBytes);
      for (int c = 0; c < channels; c++) {
        decode(block, c * bytes, frameBytes, samples[c], count);
      }
      if (floatingPoint) {
        checkNumbers(source, samples, at, count);
      }
      wanted = sink.take(samples, count);
    }
  }

  private void decode(byte[] from, int offset, int step, float[] to, int count) {
    if (floatingPoint) {
      if (bytes == 4) {
        floats(from, offset, step, to, count);
      } else {
        doubles(from, offset, step, to, count);
      }
    } else if (bytes == 2) {
      shorts(from, offset, step, to, count);
    } else if (bytes == 3) {
      triples(from, offset, step, to, count);
    } else {
      ints(from, offset, step, to, count);
    }
  }

  private void shorts(byte[] from, int offset, int step, float[] to, int count) {
    int high = bigEndian ? 0 : 1;
    for (int i = 0, p = offset; i < count; i++, p += step) {
      to[i] = (from[p + high] << 8 | from[p + 1 - high] & 0xff) * 0x1p-15f;
    }
  }

  private void triples(byte[] from, int offset, int step, float[] to, int count) {
    int high = bigEndian ? 0 : 2;
    for (int i = 0, p = offset; i < count; i++, p += step) {
      int value = from[p + high] << 16 | (from[p + 1] & 0xff) << 8 | from[p + 2 - high] & 0xff;
      to[i] = value * 0x1p-23f;
    }
  }

  private void ints(byte[] from, int offset, int step, float[] to, int count) {
    for (int i = 0, p = offset; i < count; i++, p += step) {
      to[i] = int32(from, p) * 0x1p-31f;
    }
  }

  private void floats(byte[] from, int offset, int step, float[] to, int count) {
    for (int i = 0, p = offset; i < count; i++, p += step) {
      to[i] = Float.intBitsToFloat(int32(from, p));
    }
  }

  private void doubles(byte[] from, int offset, int step, float[] to, int count) {
    int high = bigEndian ? 0 : 4;
    for (int i = 0, p = offset; i < count; i++, p += step) {
      long word = (long) int32(from, p + high) << 32 | int32(from, p + 4 - high) & 0xffffffffL;
      to[i] = (float) Double.longBitsToDouble(word);
    }
  }

  private int int32(byte[] from, int p) {
    return bigEndian
        ? from[p] << 24
            | (from[p + 1] & 0xff) << 16
            | (from[p + 2] & 0xff) << 8
            | from[p + 3] & 0xff
        : from[p + 3] << 24
            | (from[p + 2] & 0xff) << 16
            | (from[p + 1] & 0xff) << 8
            | from[p] & 0xff;
  }

  private static void checkNumbers(ByteSource source, float[][] samples, long at, int count) {
    for (int c = 0; c < samples.length; c++) {
      for (int i = 0; i < count; i++) {
        if (!Float.isFinite(samples[c][i])) {
          throw source.refuse(
              "holds a sample that is no number (channel "
                  + (c + 1)
                  + ", sample "
                  + (at + i + 1)
                  + "): export it again, without effects, or as 24-bit PCM.");
        }
      }
    }
  }
}
