package org.trebleproof.bench.live;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.LevelledSound;
import org.trebleproof.audio.device.PlaybackLine;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.audio.device.TransportRun;

/** A playback device that starts quiet and can be turned up, never beyond the sounds' own level. */
public final class Speaker {
  /** So much below their own level sounds are played at first [dB]. */
  public static final double QUIET = -20;

  private static final double STEP = 3;
  private static final double PROBE = 0.1;

  /** Sound kept ready where it follows a hand: short, but longer than a pause of the system [s]. */
  private static final double FOLLOWING = 0.1;

  private final Transport transport;
  private final SoundDevice device;
  private final DeviceFormat format;
  private volatile double level = QUIET;
  private volatile boolean stopped;

  private Speaker(SoundSystem system, SoundDevice device, DeviceFormat format) {
    this.transport = new Transport(system);
    this.device = device;
    this.format = format;
  }

  /**
   * The first device that opens at a rate.
   *
   * @param wanted its name or part of it; empty for any
   */
  public static Optional<Speaker> find(SoundSystem system, String wanted, int rate) {
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

  /** The device's name. */
  public String name() {
    return device.name();
  }

  /** Plays to the end, or until stopped. */
  public void play(float[] samples) {
    transport.play(device, format, levelled(PlayedSound.of(new float[][] {samples}, 0)));
  }

  /** Plays a sound that follows a hand, so with little kept ready, to its end or until stopped. */
  public TransportRun follow(PlayedSound sound) {
    return transport.play(device, format, levelled(sound), FOLLOWING);
  }

  private PlayedSound levelled(PlayedSound sound) {
    PlayedSound unlessStopped = (block, frames) -> stopped ? 0 : sound.next(block, frames);
    return new LevelledSound(unlessStopped, () -> level);
  }

  /** Stops what plays or is about to, without a click, for good. May be called on any thread. */
  public void stop() {
    stopped = true;
    transport.stop();
  }

  /** A step louder or quieter; the level now, against the sounds' own [dB]. */
  public double turn(boolean louder) {
    turnTo(level + (louder ? STEP : -STEP));
    return level;
  }

  /** Turns to a level against the sounds' own, at most 0 [dB]; heard at once. */
  public void turnTo(double wanted) {
    level = Math.min(0, wanted);
  }
}
