package org.trebleproof.audio.device;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import javax.sound.sampled.AudioFormat;
import javax.sound.sampled.AudioSystem;
import javax.sound.sampled.DataLine;
import javax.sound.sampled.LineUnavailableException;
import javax.sound.sampled.Mixer;
import javax.sound.sampled.SourceDataLine;
import javax.sound.sampled.TargetDataLine;

/** The devices of this machine as Java's own sound library sees them. */
public final class JavaSoundSystem implements SoundSystem {

  private static final int[] RATES = {44100, 48000, 88200, 96000, 176400, 192000};
  private static final int[] BITS = {16, 24, 32};
  private static final int[] CHANNELS = {1, 2, 4, 6, 8};

  private final SoundClock clock =
      new SoundClock() {
        @Override
        public double seconds() {
          return System.nanoTime() * 1e-9;
        }

        @Override
        public void rest(double seconds) {
          try {
            Thread.sleep(Math.round(seconds * 1000));
          } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new SoundDeviceException("The recording was interrupted: start it again.", e);
          }
        }
      };

  @Override
  public List<SoundDevice> devices() {
    List<SoundDevice> devices = new ArrayList<>();
    for (SoundDevice.Direction direction : SoundDevice.Direction.values()) {
      List<String> taken = new ArrayList<>();
      for (Mixer.Info info : AudioSystem.getMixerInfo()) {
        if (offers(AudioSystem.getMixer(info), direction)) {
          String name = name(info, taken);
          taken.add(name);
          devices.add(new SoundDevice(direction, name, info.getDescription()));
        }
      }
    }
    return devices;
  }

  private static boolean offers(Mixer mixer, SoundDevice.Direction direction) {
    DataLine.Info wanted = new DataLine.Info(lineClass(direction), null);
    return mixer.isLineSupported(wanted);
  }

  private static Class<? extends DataLine> lineClass(SoundDevice.Direction direction) {
    return direction == SoundDevice.Direction.PLAYBACK
        ? SourceDataLine.class
        : TargetDataLine.class;
  }

  /** The system's name; the second of two devices of one name gets a number. */
  private static String name(Mixer.Info info, List<String> taken) {
    String name = info.getName();
    for (int k = 2; taken.contains(name); k++) {
      name = info.getName() + " #" + k;
    }
    return name;
  }

  @Override
  public List<DeviceFormat> formats(SoundDevice device) {
    Mixer mixer = mixer(device);
    List<DeviceFormat> open = new ArrayList<>();
    for (int rate : RATES) {
      for (int bits : BITS) {
        for (int channels : CHANNELS) {
          DeviceFormat format = new DeviceFormat(rate, bits, channels);
          if (opens(mixer, device.direction(), format)) {
            open.add(format);
          }
        }
      }
    }
    return open;
  }

  private static boolean opens(Mixer mixer, SoundDevice.Direction direction, DeviceFormat format) {
    AudioFormat wanted = audioFormat(format);
    DataLine.Info info = new DataLine.Info(lineClass(direction), wanted);
    if (!mixer.isLineSupported(info)) {
      return false;
    }
    try (DataLine line = (DataLine) mixer.getLine(info)) {
      if (line instanceof SourceDataLine source) {
        source.open(wanted);
      } else if (line instanceof TargetDataLine target) {
        target.open(wanted);
      }
      return line.isOpen();
    } catch (LineUnavailableException | IllegalArgumentException | SecurityException e) {
      return false;
    }
  }

  @Override
  public PlaybackLine openPlayback(SoundDevice device, DeviceFormat format, double queueSeconds) {
    return opened(
        device,
        format,
        mixer -> {
          AudioFormat wanted = audioFormat(format);
          SourceDataLine line =
              (SourceDataLine) mixer.getLine(new DataLine.Info(SourceDataLine.class, wanted));
          line.open(wanted, format.frames(queueSeconds) * wanted.getFrameSize());
          return new JavaPlaybackLine(line, format, device.name());
        });
  }

  @Override
  public RecordingLine openRecording(SoundDevice device, DeviceFormat format, double queueSeconds) {
    return opened(
        device,
        format,
        mixer -> {
          AudioFormat wanted = audioFormat(format);
          TargetDataLine line =
              (TargetDataLine) mixer.getLine(new DataLine.Info(TargetDataLine.class, wanted));
          line.open(wanted, format.frames(queueSeconds) * wanted.getFrameSize());
          line.start();
          return new JavaRecordingLine(line, format);
        });
  }

  @Override
  public SoundClock clock() {
    return clock;
  }

  @FunctionalInterface
  private interface Opening<T> {
    T open(Mixer mixer) throws LineUnavailableException;
  }

  private static <T> T opened(SoundDevice device, DeviceFormat format, Opening<T> opening) {
    Mixer mixer = mixer(device);
    Function<Exception, SoundDeviceException> refuse =
        e ->
            new SoundDeviceException(
                "The sound device "
                    + device.name()
                    + " does not open for "
                    + device.direction().name().toLowerCase(java.util.Locale.ROOT)
                    + " with "
                    + format.channels()
                    + (format.channels() == 1 ? " channel" : " channels")
                    + " of "
                    + format.bits()
                    + " bits at "
                    + format.sampleRate()
                    + " Hz: close other programs that use it, or choose a format that"
                    + " \"trebleproof devices\" lists.",
                e);
    try {
      return opening.open(mixer);
    } catch (LineUnavailableException | IllegalArgumentException | SecurityException e) {
      throw refuse.apply(e);
    }
  }

  private static Mixer mixer(SoundDevice device) {
    List<String> taken = new ArrayList<>();
    for (Mixer.Info info : AudioSystem.getMixerInfo()) {
      Mixer mixer = AudioSystem.getMixer(info);
      if (offers(mixer, device.direction())) {
        String name = name(info, taken);
        taken.add(name);
        if (name.equals(device.name())) {
          return mixer;
        }
      }
    }
    throw new SoundDeviceException(
        "There is no sound device "
            + device.name()
            + " any more: plug it in and switch it on, or choose one that \"trebleproof devices\""
            + " lists.");
  }

  private static AudioFormat audioFormat(DeviceFormat format) {
    int frameBytes = format.bits() / 8 * format.channels();
    return new AudioFormat(
        AudioFormat.Encoding.PCM_SIGNED,
        format.sampleRate(),
        format.bits(),
        format.channels(),
        frameBytes,
        format.sampleRate(),
        false);
  }
}
