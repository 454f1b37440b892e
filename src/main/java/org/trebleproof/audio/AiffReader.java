package org.trebleproof.audio;

import java.io.IOException;

/**
 * Reads AIFF and uncompressed AIFC. Sources: Audio Interchange File Format 1.3 (Apple, 1989) and
 * its AIFF-C draft (Apple, 1991), from memory.
 */
final class AiffReader {

  private final ByteSource source;
  private SampleFormat format;
  private long frames;
  private long soundAt = -1;
  private long soundBytes;

  AiffReader(ByteSource source) {
    this.source = source;
  }

  void read(SoundSink sink) throws IOException {
    source.big(4);
    String kind = source.id();
    if (!kind.equals("AIFF") && !kind.equals("AIFC")) {
      throw source.refuse("is no sound file though it begins like one: export it again as WAV.");
    }
    // The description may follow the sound, so all chunks are looked at before any is read.
    while (source.left() >= 8 && (format == null || soundAt < 0)) {
      String id = source.id();
      long size = source.big(4);
      long start = source.position();
      if (id.equals("COMM")) {
        description(size, kind.equals("AIFC"));
      } else if (id.equals("SSND") && size >= 8 && source.left() >= 8) {
        long offset = source.big(4);
        soundAt = start + 8 + offset;
        soundBytes = size - 8 - offset;
      }
      source.position(Math.min(source.size(), start + size + (size & 1)));
    }
    if (format == null) {
      throw source.refuse(
          "does not say how its sound is stored, or is cut off: export it again as WAV.");
    }
    if (soundAt < 0 || frames == 0) {
      throw source.refuse("holds no sound: record it again.");
    }
    int frameBytes = format.channels() * format.bytes();
    long there = Math.min(soundBytes, source.size() - soundAt) / frameBytes;
    if (there < frames) {
      throw source.refuse(
          "is cut off: its header promises "
              + frames
              + " samples per channel and "
              + Math.max(0, there)
              + " are there; copy it again from the recorder.");
    }
    source.position(soundAt);
    format.read(source, frames, sink);
  }

  private void description(long size, boolean compressible) throws IOException {
    if (size < (compressible ? 22 : 18) || source.left() < size) {
      throw source.refuse("has a damaged header: export it again as WAV.");
    }
    int channels = (int) source.big(2);
    frames = source.big(4);
    int bits = (int) source.big(2);
    double rate = extended();
    String coding = compressible ? source.id() : "NONE";
    boolean floating = coding.equalsIgnoreCase("fl32") || coding.equalsIgnoreCase("fl64");
    boolean little = coding.equals("sowt");
    boolean plain = coding.equals("NONE") || coding.equals("twos") || coding.equals("in24");
    if (!floating && !little && !plain && !coding.equals("in32")) {
      throw source.refuse("is compressed: export it as WAV, 24 bits.");
    }
    if (floating) {
      bits = coding.equalsIgnoreCase("fl32") ? 32 : 64;
    }
    SampleFormat.check(source, channels, rate, bits);
    int bytes = (bits + 7) / 8;
    if (!floating && bytes > 4) {
      throw source.refuse("claims samples of " + bits + " bits: export it again as WAV, 24 bits.");
    }
    format = new SampleFormat(channels, rate, bytes, bits, floating, !little);
  }

  /** An 80-bit IEEE 754 extended number; infinite and unnormal ones come out absurd. */
  private double extended() throws IOException {
    int signAndExponent = (int) source.big(2);
    long mantissa = source.big(8);
    double size =
        ((mantissa >>> 1) * 2.0 + (mantissa & 1))
            * Math.pow(2, (signAndExponent & 0x7fff) - 16383 - 63);
    return (signAndExponent & 0x8000) != 0 ? -size : size;
  }
}
