package org.trebleproof.bench.live;

import java.util.Optional;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;

/**
 * What sound comes in by where none goes out.
 *
 * @param system whose device it is
 * @param recording device and format
 * @param channel of it that counts; from 1
 */
public record LiveInput(SoundSystem system, Transport.Route recording, int channel) {

  /**
   * Chooses device and format: 24 bits where the device has it.
   *
   * @param name of the device, or a part of it; empty for the system's usual one
   * @param sampleRate [Hz]
   * @throws SoundDeviceException if there is no such device or it does not open at that rate
   */
  public static LiveInput choose(
      SoundSystem system, Optional<String> name, int sampleRate, int channel) {
    SoundDevice in = LiveBench.device(system, SoundDevice.Direction.RECORDING, name);
    return new LiveInput(
        system,
        new Transport.Route(in, LiveBench.format(system, in, sampleRate, channel, channel)),
        channel);
  }

  /** Sample rate [Hz]. */
  public int sampleRate() {
    return recording.format().sampleRate();
  }
}
