package org.trebleproof.audio;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.trebleproof.file.WholeFile;
import org.trebleproof.quantity.Refusal;

/** Writes WAV files, whole or not at all. */
public final class WavWriter {

  private static final int BLOCK_FRAMES = 4096;

  private WavWriter() {}

  /** How a sample is stored. */
  public enum Encoding {
    PCM16(2, 1),
    PCM24(3, 1),
    FLOAT32(4, 3);

    private final int bytes;
    private final int tag;

    Encoding(int bytes, int tag) {
      this.bytes = bytes;
      this.tag = tag;
    }
  }

  /**
   * Writes a file.
   *
   * @param file its place; a file there is replaced
   * @param channels samples of each channel, all of one length, within ±1 for PCM
   * @param sampleRate whole number of hertz
   * @throws Refusal if it cannot be written, in one sentence
   * @throws IllegalArgumentException if the samples cannot be stored so
   */
  public static void write(Path file, float[][] channels, int sampleRate, Encoding encoding) {
    check(channels, encoding);
    if (dataBytes(channels, encoding) > 0xffff0000L) {
      throw new Refusal(file + " would be longer than a WAV file can be: make it shorter.");
    }
    WholeFile.write(file, out -> writeTo(out, channels, sampleRate, encoding));
  }

  /**
   * The bytes of such a file, for a short sound that is carried in something else; arguments as
   * above.
   */
  public static byte[] bytes(float[][] channels, int sampleRate, Encoding encoding) {
    check(channels, encoding);
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try {
      writeTo(bytes, channels, sampleRate, encoding);
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible); // memory does not fail
    }
    return bytes.toByteArray();
  }

  private static void check(float[][] channels, Encoding encoding) {
    for (float[] channel : channels) {
      if (channel.length != channels[0].length) {
        throw new IllegalArgumentException("the channels of a WAV file have one length");
      }
      for (float sample : channel) {
        if (!(Math.abs(sample) <= (encoding == Encoding.FLOAT32 ? Float.MAX_VALUE : 1))) {
          throw new IllegalArgumentException("a sample of " + sample + " cannot be written");
        }
      }
    }
  }

  private static long dataBytes(float[][] channels, Encoding encoding) {
    return (long) channels[0].length * channels.length * encoding.bytes;
  }

  private static void writeTo(
      OutputStream out, float[][] channels, int sampleRate, Encoding encoding) throws IOException {
    int frames = channels[0].length;
    long dataBytes = dataBytes(channels, encoding);
    out.write(header(channels.length, frames, sampleRate, encoding, dataBytes));
    samples(out, channels, frames, encoding);
    if (dataBytes % 2 != 0) {
      out.write(0);
    }
  }

  private static byte[] header(
      int channels, int frames, int sampleRate, Encoding encoding, long dataBytes)
      throws IOException {
    int frameBytes = channels * encoding.bytes;
    ByteBuffer format = little(18);
    format.putShort((short) encoding.tag).putShort((short) channels).putInt(sampleRate);
    format.putInt(sampleRate * frameBytes).putShort((short) frameBytes);
    format.putShort((short) (8 * encoding.bytes)).putShort((short) 0);
    ByteArrayOutputStream chunks = new ByteArrayOutputStream();
    if (encoding == Encoding.FLOAT32) {
      chunk(chunks, "fmt ", format.array());
      // Every format but PCM carries the number of frames as well.
      chunk(chunks, "fact", little(4).putInt(frames).array());
    } else {
      chunk(chunks, "fmt ", java.util.Arrays.copyOf(format.array(), 16));
    }
    chunks.write("data".getBytes(StandardCharsets.US_ASCII));
    chunks.write(little(4).putInt((int) dataBytes).array());
    long riffBytes = 4 + chunks.size() + dataBytes + dataBytes % 2;
    ByteArrayOutputStream whole = new ByteArrayOutputStream();
    whole.write("RIFF".getBytes(StandardCharsets.US_ASCII));
    whole.write(little(4).putInt((int) riffBytes).array());
    whole.write("WAVE".getBytes(StandardCharsets.US_ASCII));
    chunks.writeTo(whole);
    return whole.toByteArray();
  }

  private static void chunk(ByteArrayOutputStream out, String id, byte[] content)
      throws IOException {
    out.write(id.getBytes(StandardCharsets.US_ASCII));
    out.write(little(4).putInt(content.length).array());
    out.write(content);
  }

  private static void samples(OutputStream out, float[][] channels, int frames, Encoding encoding)
      throws IOException {
    int step = channels.length * encoding.bytes;
    byte[] block = new byte[BLOCK_FRAMES * step];
    for (int at = 0; at < frames; at += BLOCK_FRAMES) {
      int count = Math.min(BLOCK_FRAMES, frames - at);
      for (int c = 0; c < channels.length; c++) {
        int p = c * encoding.bytes;
        for (int i = 0; i < count; i++, p += step) {
          int word = word(channels[c][at + i], encoding);
          for (int b = 0; b < encoding.bytes; b++) {
            block[p + b] = (byte) (word >> 8 * b);
          }
        }
      }
      out.write(block, 0, count * step);
    }
  }

  private static int word(float sample, Encoding encoding) {
    if (encoding == Encoding.FLOAT32) {
      return Float.floatToRawIntBits(sample);
    }
    int full = 1 << (8 * encoding.bytes - 1);
    return (int) Math.min(full - 1, Math.rint((double) sample * full));
  }

  private static ByteBuffer little(int size) {
    return ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
  }
}
