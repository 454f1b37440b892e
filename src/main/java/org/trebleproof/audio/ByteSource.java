package org.trebleproof.audio;

import java.io.EOFException;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;

/** A file read forward in blocks, with chunk headers of either byte order. */
final class ByteSource {

  private final Path file;
  private final FileChannel channel;
  private final long size;
  private final byte[] small = new byte[10];

  ByteSource(Path file, FileChannel channel) throws IOException {
    this.file = file;
    this.channel = channel;
    this.size = channel.size();
  }

  Path file() {
    return file;
  }

  long size() {
    return size;
  }

  long position() throws IOException {
    return channel.position();
  }

  long left() throws IOException {
    return size - channel.position();
  }

  void position(long position) throws IOException {
    channel.position(position);
  }

  /** Fills the first {@code count} bytes of {@code into}. */
  void bytes(byte[] into, int count) throws IOException {
    ByteBuffer buffer = ByteBuffer.wrap(into, 0, count);
    while (buffer.hasRemaining()) {
      if (channel.read(buffer) < 0) {
        throw new EOFException();
      }
    }
  }

  /** A four-letter chunk name. */
  String id() throws IOException {
    bytes(small, 4);
    return new String(small, 0, 4, StandardCharsets.ISO_8859_1);
  }

  /** An unsigned number of {@code count} bytes, at most 8, least significant first. */
  long little(int count) throws IOException {
    bytes(small, count);
    long value = 0;
    for (int i = count - 1; i >= 0; i--) {
      value = value << 8 | small[i] & 0xff;
    }
    return value;
  }

  /** An unsigned number of {@code count} bytes, at most 8, most significant first. */
  long big(int count) throws IOException {
    bytes(small, count);
    long value = 0;
    for (int i = 0; i < count; i++) {
      value = value << 8 | small[i] & 0xff;
    }
    return value;
  }

  SoundFileException refuse(String whatAndFix) {
    return new SoundFileException(file, whatAndFix);
  }
}
