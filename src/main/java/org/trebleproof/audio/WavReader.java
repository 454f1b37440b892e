package org.trebleproof.audio;

import java.io.IOException;
import java.util.HashMap;
import java.util.Map;

/**
 * Reads RIFF WAVE and its 64-bit forms. Sources: Multimedia Programming Interface and Data
 * Specifications 1.0 (IBM, Microsoft, 1991); WAVE_FORMAT_EXTENSIBLE (Microsoft, 2001); RF64: EBU
 * Tech 3306; BW64: ITU-R BS.2088. Layout of ds64 from memory.
 *
 * <p>The outer RIFF size is not believed either way; the chunks are. A chunk of odd size is
 * followed by a pad byte that its size does not count.
 */
final class WavReader {

  private static final long UNKNOWN = 0xffffffffL;
  private static final int PCM = 1;
  private static final int FLOAT = 3;
  private static final int EXTENSIBLE = 0xfffe;

  private final ByteSource source;
  private final boolean wide;
  private final Map<String, Long> wideSizes = new HashMap<>();
  private SampleFormat format;
  private long outerSize;

  WavReader(ByteSource source, String id) {
    this.source = source;
    this.wide = !id.equals("RIFF");
  }

  Recording read() throws IOException {
    outerSize = source.little(4);
    if (!source.id().equals("WAVE")) {
      throw source.refuse("is no sound file though it begins like one: export it again as WAV.");
    }
    while (source.left() >= 8) {
      String id = source.id();
      long size = source.little(4);
      long start = source.position();
      if (wide && size == UNKNOWN) {
        size = wideSizes.getOrDefault(id, UNKNOWN);
      }
      if (id.equals("data")) {
        return data(size);
      }
      if (size < 0 || size > source.left()) {
        throw source.refuse(
            "is cut off inside its header, or its header is damaged: copy it again from the"
                + " recorder.");
      }
      if (id.equals("ds64")) {
        wideSizes(size);
      } else if (id.equals("fmt ")) {
        format(size);
      }
      source.position(Math.min(source.size(), start + size + (size & 1)));
    }
    throw source.refuse("is cut off before its sound begins: copy it again from the recorder.");
  }

  private void wideSizes(long size) throws IOException {
    if (size < 28) {
      throw damaged("ds64");
    }
    source.little(8);
    wideSizes.put("data", source.little(8));
    source.little(8);
    long entries = source.little(4);
    // A table longer than its chunk is damage; only the chunks before the sound matter.
    for (long i = 0; i < entries && 28 + (i + 1) * 12 <= size; i++) {
      String id = source.id();
      wideSizes.put(id, source.little(8));
    }
  }

  private void format(long size) throws IOException {
    if (size < 16) {
      throw damaged("fmt");
    }
    int tag = (int) source.little(2);
    int channels = (int) source.little(2);
    long rate = source.little(4);
    long byteRate = source.little(4);
    int frameBytes = (int) source.little(2);
    int containerBits = (int) source.little(2);
    int bits = containerBits;
    if (tag == EXTENSIBLE) {
      if (size < 40) {
        throw damaged("fmt");
      }
      source.little(2);
      int validBits = (int) source.little(2);
      source.little(4);
      tag = (int) source.little(2);
      if (validBits > 0 && validBits <= containerBits) {
        bits = validBits;
      }
    }
    if (tag != PCM && tag != FLOAT) {
      throw source.refuse("is compressed (WAV format " + tag + "): export it as plain PCM WAV.");
    }
    SampleFormat.check(source, channels, rate, bits);
    boolean floating = tag == FLOAT;
    boolean known =
        floating
            ? containerBits == 32 || containerBits == 64
            : containerBits == 16 || containerBits == 24 || containerBits == 32;
    if (!known || frameBytes != channels * containerBits / 8) {
      throw source.refuse(
          "stores its samples in an unusual way ("
              + containerBits
              + " bits in frames of "
              + frameBytes
              + " bytes): export it again as WAV, 24 bits.");
    }
    // The rate stands there twice; some recorders leave the second one zero.
    if (byteRate != 0 && byteRate != rate * frameBytes) {
      throw source.refuse(
          "contradicts itself about its sample rate ("
              + rate
              + " Hz, but "
              + byteRate
              + " bytes a second), so its header is damaged: copy it again from the recorder.");
    }
    format = new SampleFormat(channels, rate, containerBits / 8, bits, floating, false);
  }

  private Recording data(long size) throws IOException {
    if (format == null) {
      throw source.refuse(
          "does not say how its sound is stored before the sound begins: export it again as WAV.");
    }
    if (size == UNKNOWN || size == 0 && source.left() > 0) {
      throw source.refuse(
          "was never finished by its recorder (the header does not give the length): open it in an"
              + " audio editor and save it again.");
    }
    int frameBytes = format.channels() * format.bytes();
    if (size < 0 || size > source.left()) {
      throw source.refuse(
          "is cut off: its header promises "
              + (size < 0 ? "impossibly many" : Long.toString(size / frameBytes))
              + " samples per channel and "
              + source.left() / frameBytes
              + " are there; copy it again from the recorder.");
    }
    checkBehind(size);
    return format.read(source, size / frameBytes);
  }

  /**
   * Where the outer size says that the file is whole, what follows the sound is a chunk; if it is
   * none, the sound goes on and its length was damaged.
   */
  private void checkBehind(long size) throws IOException {
    long start = source.position();
    long next = start + size + (size & 1);
    if (outerSize + 8 == source.size() && next < source.size()) {
      source.position(next);
      if (source.left() < 8
          || source.id().chars().anyMatch(c -> c < ' ' || c > '~')
          || source.little(4) > source.left()) {
        throw source.refuse(
            "holds more sound than its header says, so the header is damaged: copy it again from"
                + " the recorder.");
      }
      source.position(start);
    }
  }

  private SoundFileException damaged(String chunk) {
    return source.refuse("has a damaged " + chunk + " header: export it again as WAV.");
  }
}
