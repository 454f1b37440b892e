package org.trebleproof.audio.device;

/** An open playback device. Not thread-safe. */
public interface PlaybackLine extends AutoCloseable {

  DeviceFormat format();

  /** Frames it can hold in all. */
  int capacity();

  /** Frames that can be written now without waiting. */
  int writable();

  /**
   * Queues sound.
   *
   * @param block one array per channel of the format, full scale ±1; what is beyond is limited
   * @param frames at most {@link #writable()}
   * @throws SoundDeviceException if the device is gone
   */
  void write(float[][] block, int frames);

  /** Begins to sound; what was written before waits until then. */
  void start();

  /**
   * Throws away what is queued and not yet sounding.
   *
   * @return frames thrown away
   */
  int discard();

  @Override
  void close();
}
