package org.trebleproof.cli;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.PlaybackLine;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;

/** A playback device that starts quiet and can be turned up, never beyond the sounds' own level. */
final class Speaker {
  /** So much below their own level sounds are played at first [dB]. */
  static final double QUIET = -20;

  private static final double STEP = 3;
  private static final double PROBE = 0.1;

  private final SoundSystem system;
  private final SoundDevice device;
  private final DeviceFormat format;
  private double level = QUIET;

  private Speaker(SoundSystem system, SoundDevice device, DeviceFormat format) {
    this.system = system;
    this.device = device;
    this.format = format;
  }

  /**
   * The first device that opens at a rate.
   *
   * @param wanted its name or part of it; empty for any
   */
  static Optional<Speaker> find(SoundSystem system, String wanted, int rate) {
    String part = wanted.toLowerCase(Locale.ROOT);
    for (SoundDevice device : system.devices()) {
      if (device.direction() == SoundDevice.Direction.PLAYBACK
          && device.name().toLowerCase(Locale.ROOT).contains(part)) {
        for (DeviceFormat format :
            List.of(
                new DeviceFormat(rate, 16, 2),
                new DeviceFormat(rate, 24, 2),
                new DeviceFormat(rate, 32, 2),
                new DeviceFormat(rate, 16, 1))) {
          if (opens(system, device, format)) {
            return Optional.of(new Speaker(system, device, format));
          }
        }
      }
    }
    return Optional.empty();
  }

  private static boolean opens(SoundSystem system, SoundDevice device, DeviceFormat format) {
    try (PlaybackLine line = system.openPlayback(device, format, PROBE)) {
      return line != null;
    } catch (SoundDeviceException e) {
      return false;
    }
  }

  String name() {
    return device.name();
  }

  /** Plays to the end. */
  void play(float[] samples) {
    new Transport(system).play(device, format, PlayedSound.of(new float[][] {samples}, level));
  }

  /** A step louder or quieter; the level now, against the sounds' own [dB]. */
  double turn(boolean louder) {
    level = Math.min(0, level + (louder ? STEP : -STEP));
    return level;
  }
}
