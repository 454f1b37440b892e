package org.trebleproof.bench.live;

import java.util.List;
import java.util.Optional;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.audio.device.Transport;

/**
 * The interface on the bench: where sound goes out, where it comes in, and which of the recorded
 * channels is which.
 *
 * @param system whose devices they are
 * @param playback device and format that sound goes out by
 * @param recording device and format that it comes in by
 * @param referenceChannel recorded channel of the driven end or the exciter's current; from 1
 * @param deviceChannel recorded channel of the device; from 1
 */
public record LiveBench(
    SoundSystem system,
    Transport.Route playback,
    Transport.Route recording,
    int referenceChannel,
    int deviceChannel) {

  /** What a system calls the devices it is set to. */
  private static final String USUAL = "default";

  /**
   * Chooses devices and formats: 24 bits where the devices have it.
   *
   * @param playback name of the playback device, or a part of it; empty for the system's usual one
   * @param recording likewise for the recording device
   * @param sampleRate [Hz]
   * @throws SoundDeviceException if there is no such device or none opens at that rate
   */
  public static LiveBench choose(
      SoundSystem system,
      Optional<String> playback,
      Optional<String> recording,
      int sampleRate,
      int referenceChannel,
      int deviceChannel) {
    SoundDevice out = device(system, SoundDevice.Direction.PLAYBACK, playback);
    SoundDevice in = device(system, SoundDevice.Direction.RECORDING, recording);
    return new LiveBench(
        system,
        new Transport.Route(out, format(system, out, sampleRate, 2, 1)),
        new Transport.Route(
            in,
            format(
                system,
                in,
                sampleRate,
                Math.max(referenceChannel, deviceChannel),
                Math.max(referenceChannel, deviceChannel))),
        referenceChannel,
        deviceChannel);
  }

  /** Whether playback and recording are one device, with one clock, as far as the names tell. */
  public boolean oneDevice() {
    return playback.device().name().equals(recording.device().name());
  }

  /** Sample rate of both [Hz]. */
  public int sampleRate() {
    return recording.format().sampleRate();
  }

  static SoundDevice device(
      SoundSystem system, SoundDevice.Direction direction, Optional<String> name) {
    List<SoundDevice> devices =
        system.devices().stream().filter(d -> d.direction() == direction).toList();
    String what = direction == SoundDevice.Direction.PLAYBACK ? "playback" : "recording";
    if (devices.isEmpty()) {
      throw new SoundDeviceException(
          "There is no "
              + what
              + " device: plug the interface in, switch it on, and see that the sound system runs"
              + " for this user.");
    }
    if (name.isEmpty()) {
      return devices.stream()
          .filter(d -> d.name().toLowerCase(java.util.Locale.ROOT).startsWith(USUAL))
          .findFirst()
          .orElse(devices.get(0));
    }
    List<SoundDevice> exact = devices.stream().filter(d -> d.name().equals(name.get())).toList();
    List<SoundDevice> named =
        exact.isEmpty()
            ? devices.stream().filter(d -> d.name().contains(name.get())).toList()
            : exact;
    if (named.size() != 1) {
      throw new SoundDeviceException(
          (named.isEmpty() ? "No " : "More than one ")
              + what
              + " device is called "
              + org.trebleproof.quantity.Refusal.quote(name.get())
              + ": there are "
              + String.join(", ", devices.stream().map(SoundDevice::name).toList())
              + ".");
    }
    return named.get(0);
  }

  /** The best format: 24 bits before 32 before 16, and as few channels as will do. */
  static DeviceFormat format(
      SoundSystem system, SoundDevice device, int sampleRate, int wanted, int least) {
    List<DeviceFormat> formats =
        system.formats(device).stream().filter(f -> f.sampleRate() == sampleRate).toList();
    for (int channels : wanted == least ? new int[] {wanted} : new int[] {wanted, least}) {
      for (int bits : new int[] {24, 32, 16}) {
        Optional<DeviceFormat> found =
            formats.stream()
                .filter(f -> f.bits() == bits && f.channels() >= channels)
                .min(java.util.Comparator.comparingInt(DeviceFormat::channels));
        if (found.isPresent()) {
          return found.get();
        }
      }
    }
    throw new SoundDeviceException(
        "The sound device "
            + device.name()
            + " does not open at "
            + sampleRate
            + " Hz with "
            + least
            + (least == 1 ? " channel" : " channels")
            + ": choose a rate that \"trebleproof devices\" lists.");
  }
}
