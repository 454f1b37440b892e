package org.trebleproof.audio.device;

import javax.sound.sampled.SourceDataLine;

/** A playback line of Java's own sound library. */
final class JavaPlaybackLine implements PlaybackLine {

  private final SourceDataLine line;
  private final DeviceFormat format;
  private final String device;
  private final PcmWords words;
  private byte[] bytes = new byte[0];
  private boolean started;
  private int waiting;

  JavaPlaybackLine(SourceDataLine line, DeviceFormat format, String device) {
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
  public int writable() {
    // Before the start some systems do not count what was written.
    return started ? line.available() / words.frameBytes() : capacity() - waiting;
  }

  @Override
  public void write(float[][] block, int frames) {
    int size = frames * words.frameBytes();
    if (bytes.length < size) {
      bytes = new byte[size];
    }
    words.encode(block, frames, bytes);
    if (line.write(bytes, 0, size) < size) {
      throw new SoundDeviceException(
          "The sound device "
              + device
              + " takes no more sound: see that it is plugged in and switched on, then start"
              + " again.");
    }
    if (!started) {
      waiting += frames;
    }
  }

  @Override
  public void start() {
    line.start();
    started = true;
  }

  @Override
  public int discard() {
    int queued = Math.max(0, capacity() - writable());
    line.flush();
    return queued;
  }

  @Override
  public void close() {
    line.close();
  }
}
