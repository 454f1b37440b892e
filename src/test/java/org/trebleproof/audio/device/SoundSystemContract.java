package org.trebleproof.audio.device;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** What every sound system with its output wired to its input must do. */
abstract class SoundSystemContract {

  private static final long SEED = 20261125;

  abstract SoundSystem system();

  abstract SoundDevice playback();

  abstract SoundDevice recording();

  private DeviceFormat format() {
    return new DeviceFormat(48000, 24, 2);
  }

  private Transport.Route out() {
    return new Transport.Route(playback(), format());
  }

  private Transport.Route in() {
    return new Transport.Route(recording(), format());
  }

  @Test
  void listsItsDevicesWithFormatsThatOpen() {
    assertTrue(system().devices().contains(playback()));
    assertTrue(system().devices().contains(recording()));
    for (SoundDevice device : List.of(playback(), recording())) {
      assertTrue(system().formats(device).contains(format()), device.name());
    }
  }

  @Test
  void everySampleComesBackInOrder() {
    float[] noise = new float[2 * 48000];
    SplittableRandom chance = new SplittableRandom(SEED);
    System.out.println("seed " + SEED);
    for (int i = 0; i < noise.length; i++) {
      // Whole steps of 24 bits, so that nothing is rounded on the way.
      noise[i] = chance.nextInt(-1 << 22, 1 << 22) * 0x1p-23f;
    }
    RecordedSound heard = new RecordedSound();
    TransportRun run =
        new Transport(system())
            .run(out(), PlayedSound.of(new float[][] {noise}, 0), in(), 0.5, heard);
    assertFalse(run.stopped());
    assertEquals(noise.length, run.played());
    float[] left = heard.channel(0);
    assertEquals(left.length, run.recorded());
    int at = 0;
    while (at + noise.length <= left.length
        && !(left[at] == noise[0] && left[at + 1] == noise[1] && left[at + 2] == noise[2])) {
      at++;
    }
    assertTrue(at + noise.length <= left.length, "what was played was not found in the recording");
    assertArrayEquals(noise, java.util.Arrays.copyOfRange(left, at, at + noise.length));
    assertArrayEquals(left, heard.channel(1));
  }

  @Test
  void aStopFadesOutWithin20Milliseconds() {
    Transport transport = new Transport(system());
    RecordedSound heard = new RecordedSound();
    long[] frames = {0};
    float[] constant = new float[10 * 48000];
    java.util.Arrays.fill(constant, 0.5f);
    TransportRun run =
        transport.run(
            out(),
            PlayedSound.of(new float[][] {constant}, 0),
            in(),
            0.5,
            (block, count) -> {
              heard.block(block, count);
              frames[0] += count;
              if (frames[0] > 48000) {
                transport.stop();
              }
            });
    assertTrue(run.stopped());
    assertTrue(run.played() < 3 * 48000, "played " + run.played());
  }

  @Test
  void aDeviceThatIsNotThereIsRefused() {
    SoundDevice none = new SoundDevice(SoundDevice.Direction.PLAYBACK, "no such device", "");
    SoundDeviceException refused =
        assertThrows(
            SoundDeviceException.class,
            () -> new Transport(system()).play(none, format(), PlayedSound.silence()));
    assertTrue(refused.getMessage().contains("no such device"), refused.getMessage());
  }
}
