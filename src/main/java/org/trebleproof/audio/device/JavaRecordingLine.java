package org.trebleproof.audio.device;

import javax.sound.sampled.TargetDataLine;

/** A recording line of Java's own sound library. */
final class JavaRecordingLine implements RecordingLine {

  private final TargetDataLine line;
  private final DeviceFormat format;
  private final String device;
  private final PcmWords words;
  private byte[] bytes = new byte[0];

  JavaRecordingLine(TargetDataLine line, DeviceFormat format, String device) {
    this.device = device;
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
  public void read(float[][] block, int frames) {
    int size = frames * words.frameBytes();
    if (bytes.length < size) {
      bytes = new byte[size];
    }
    int got = line.read(bytes, 0, size);
    if (got < size) {
      throw new SoundDeviceException(
          "The sound device "
              + device
              + " was lost in mid-recording: see that it is plugged in and switched on, then start"
              + " again.");
    }
    words.decode(bytes, block, frames);
  }

  @Override
  public void close() {
    line.close();
  }
}
