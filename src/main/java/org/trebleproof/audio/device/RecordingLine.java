package org.trebleproof.audio.device;

/** An open, running recording device. Not thread-safe. */
public interface RecordingLine extends AutoCloseable {

  DeviceFormat format();

  /** Frames it can hold until they are read; when it is full, sound is lost. */
  int capacity();

  /** Frames that can be read now without waiting. */
  int readable();

  /**
   * Takes sound.
   *
   * @param block one array per channel of the format, receives samples of full scale ±1
   * @param frames at most {@link #readable()}
   * @return frames taken; fewer, or none, where the device stumbles or is gone
   */
  int read(float[][] block, int frames);

  @Override
  void close();
}
