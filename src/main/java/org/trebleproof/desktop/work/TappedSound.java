package org.trebleproof.desktop.work;

import java.util.List;
import org.trebleproof.audio.device.BlockListener;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.PlaybackLine;
import org.trebleproof.audio.device.RecordingLine;
import org.trebleproof.audio.device.SoundClock;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundSystem;

/** A sound system whose recorded sound is also handed to somebody who looks at it. */
final class TappedSound implements SoundSystem {

  private final SoundSystem system;
  private final BlockListener tap;

  TappedSound(SoundSystem system, BlockListener tap) {
    this.system = system;
    this.tap = tap;
  }

  @Override
  public List<SoundDevice> devices() {
    return system.devices();
  }

  @Override
  public List<DeviceFormat> formats(SoundDevice device) {
    return system.formats(device);
  }

  @Override
  public PlaybackLine openPlayback(SoundDevice device, DeviceFormat format, double queueSeconds) {
    return system.openPlayback(device, format, queueSeconds);
  }

  @Override
  public RecordingLine openRecording(SoundDevice device, DeviceFormat format, double queueSeconds) {
    RecordingLine line = system.openRecording(device, format, queueSeconds);
    return new RecordingLine() {
      @Override
      public DeviceFormat format() {
        return line.format();
      }

      @Override
      public int capacity() {
        return line.capacity();
      }

      @Override
      public int readable() {
        return line.readable();
      }

      @Override
      public int read(float[][] block, int frames) {
        int taken = line.read(block, frames);
        if (taken > 0) {
          tap.block(block, taken);
        }
        return taken;
      }

      @Override
      public void close() {
        line.close();
      }
    };
  }

  @Override
  public SoundClock clock() {
    return system.clock();
  }
}
