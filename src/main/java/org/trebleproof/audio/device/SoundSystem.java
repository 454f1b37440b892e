package org.trebleproof.audio.device;

import java.util.List;

/**
 * The sound devices of a machine, real or simulated. Lines never block: whoever uses them waits by
 * the system's {@link SoundClock}, which a simulated system turns itself.
 */
public interface SoundSystem {

  /** Devices there are now; quick, opens nothing. */
  List<SoundDevice> devices();

  /**
   * The formats in which a device really opens, each tried. Takes up to some seconds.
   *
   * @return rates upwards, then bits, then channels; empty where nothing opens
   */
  List<DeviceFormat> formats(SoundDevice device);

  /**
   * Opens a device for playback; it sounds once it is filled and started.
   *
   * @param queueSeconds longest stretch of sound the line may hold [s]
   * @throws SoundDeviceException if it does not open so
   */
  PlaybackLine openPlayback(SoundDevice device, DeviceFormat format, double queueSeconds);

  /**
   * Opens a device for recording and starts it.
   *
   * @param queueSeconds longest stretch of sound the line should hold until it is read [s]
   * @throws SoundDeviceException if it does not open so
   */
  RecordingLine openRecording(SoundDevice device, DeviceFormat format, double queueSeconds);

  /** The time by which its lines run. */
  SoundClock clock();
}
