package org.trebleproof.audio;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import org.trebleproof.file.WholeFile;
import org.trebleproof.quantity.Refusal;

/**
 * A WAV file of 24 bits that can be read at every moment while it grows: sound is appended first,
 * then the whole header is written anew in one stroke. If the process is killed, what was appended
 * up to then is a valid file.
 */
public final class GrowingWavFile implements AutoCloseable {

  private static final int HEADER = 44;
  private static final int SAMPLE = 3;
  private static final long LONGEST = 0xffff0000L;

  /** Sound is handed to the system in pieces of this length [s]. */
  private static final double PIECE = 0.02;

  private final Path file;
  private final FileChannel channel;
  private final int channels;
  private final int sampleRate;
  private final ByteBuffer piece;
  private long dataBytes;

  /**
   * Begins a file.
   *
   * @param file its place; refused if there is one
   * @throws Refusal if it cannot be written there
   */
  public GrowingWavFile(Path file, int channels, int sampleRate) {
    this.file = file;
    this.channels = channels;
    this.sampleRate = sampleRate;
    WholeFile.checkPlace(file);
    try {
      channel = FileChannel.open(file, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE);
    } catch (IOException e) {
      throw refuse(e);
    }
    int frames = Math.max(1, (int) (PIECE * sampleRate));
    piece = ByteBuffer.allocate(frames * channels * SAMPLE).order(ByteOrder.LITTLE_ENDIAN);
    header();
  }

  /**
   * Appends sound.
   *
   * @param block one array per channel, full scale ±1; what is beyond is limited
   * @throws Refusal if the disk is full or gone; what was appended before stays
   */
  public void append(float[][] block, int frames) {
    for (int i = 0; i < frames; i++) {
      for (int c = 0; c < channels; c++) {
        double scaled = Math.rint(block[c][i] * 0x1p23);
        int word = (int) Math.max(-0x1p23, Math.min(0x1p23 - 1, scaled));
        piece.put((byte) word).put((byte) (word >> 8)).put((byte) (word >> 16));
      }
      if (!piece.hasRemaining()) {
        flush();
      }
    }
  }

  /** Frames per channel that are safely handed over. */
  public long frames() {
    return dataBytes / (channels * SAMPLE);
  }

  private void flush() {
    piece.flip();
    if (dataBytes + piece.remaining() > LONGEST) {
      throw new Refusal(file + " would be longer than a WAV file can be: make it shorter.");
    }
    try {
      long at = HEADER + dataBytes;
      dataBytes += piece.remaining();
      while (piece.hasRemaining()) {
        at += channel.write(piece, at);
      }
    } catch (IOException e) {
      throw refuse(e);
    }
    piece.clear();
    header();
  }

  private void header() {
    int frameBytes = channels * SAMPLE;
    ByteBuffer header = ByteBuffer.allocate(HEADER).order(ByteOrder.LITTLE_ENDIAN);
    header.put(ascii("RIFF")).putInt((int) (HEADER - 8 + dataBytes)).put(ascii("WAVE"));
    header.put(ascii("fmt ")).putInt(16).putShort((short) 1).putShort((short) channels);
    header.putInt(sampleRate).putInt(sampleRate * frameBytes).putShort((short) frameBytes);
    header.putShort((short) (8 * SAMPLE)).put(ascii("data")).putInt((int) dataBytes).flip();
    try {
      channel.write(header, 0);
    } catch (IOException e) {
      throw refuse(e);
    }
  }

  private static byte[] ascii(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }

  private Refusal refuse(IOException e) {
    return new Refusal(
        file
            + " could not be written: check that it is not there already, that the folder may be"
            + " written to and that the disk is not full.",
        e);
  }

  /** Writes what is left; returns once it is on the disk. */
  @Override
  public void close() {
    try (channel) {
      flush();
      if (dataBytes % 2 != 0) {
        // A chunk of odd size is followed by a pad byte that its size does not count.
        channel.write(ByteBuffer.allocate(1), HEADER + dataBytes);
      }
      channel.force(true);
    } catch (IOException e) {
      throw refuse(e);
    }
  }
}
