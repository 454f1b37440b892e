package org.trebleproof.audio.device;

import javax.sound.sampled.TargetDataLine;

/** A recording line of Java's own sound library. */
final class JavaRecordingLine implements RecordingLine {

  private final TargetDataLine line;
  private final DeviceFormat format;
  private final PcmWords words;
  private byte[] bytes = new byte[0];

  JavaRecordingLine(TargetDataLine line, DeviceFormat format) {
    this.line = line;
    this.format = format;
    words = new PcmWords(format);
  }

  @Override
  public DeviceFormat format() {
    return format;
  }

  @Override
  public int capacity() {
    return line.getBufferSize() / words.frameBytes();
  }

  @Override
  public int readable() {
    return line.available() / words.frameBytes();
  }

  @Override
  public int read(float[][] block, int frames) {
    int size = frames * words.frameBytes();
    if (bytes.length < size) {
      bytes = new byte[size];
    }
    int got = Math.max(0, line.read(bytes, 0, size)) / words.frameBytes();
    words.decode(bytes, block, got);
    return got;
  }

  @Override
  public void close() {
    line.close();
  }
}
