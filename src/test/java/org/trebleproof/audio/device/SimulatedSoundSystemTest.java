package org.trebleproof.audio.device;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** The transport against the simulated interface. */
final class SimulatedSoundSystemTest extends SoundSystemContract {

  private static final DeviceFormat FORMAT = new DeviceFormat(48000, 24, 2);

  private final SimulatedSoundSystem system = new SimulatedSoundSystem();

  @Override
  SoundSystem system() {
    return system;
  }

  @Override
  SoundDevice playback() {
    return system.playback();
  }

  @Override
  SoundDevice recording() {
    return system.recording();
  }

  @Test
  void aStopIsSilentWithin20MillisecondsAndWithoutAStep() {
    float[] constant = new float[10 * 48000];
    Arrays.fill(constant, 0.5f);
    Transport transport = new Transport(system);
    double[] stoppedAt = {Double.NaN};
    transport.play(
        system.playback(),
        FORMAT,
        (block, frames) -> {
          if (system.clock().seconds() > 101.5 && Double.isNaN(stoppedAt[0])) {
            stoppedAt[0] = system.clock().seconds();
            transport.stop();
          }
          for (float[] channel : block) {
            Arrays.fill(channel, 0, frames, 0.5f);
          }
          return frames;
        });
    float[] air = system.played();
    int last = air.length;
    while (air[last - 1] == 0) {
      last--;
    }
    // The simulated clock stood at 100 s when playback began.
    double silentAt = 100 + last / 48000.0;
    assertTrue(silentAt - stoppedAt[0] <= 0.02, "silent after " + (silentAt - stoppedAt[0]));
    for (int i = 1; i < last; i++) {
      assertTrue(Math.abs(air[i] - air[i - 1]) < 0.01, "a step at " + i);
    }
  }

  @Test
  void aDevicePulledOutIsNamed() {
    system.unplugAt(0.7);
    SoundDeviceException lost =
        assertThrows(
            SoundDeviceException.class,
            () ->
                new Transport(system)
                    .run(
                        new Transport.Route(system.playback(), FORMAT),
                        PlayedSound.silence(),
                        new Transport.Route(system.recording(), FORMAT),
                        0,
                        (block, frames) -> {}));
    assertTrue(lost.getMessage().contains("simulated in"), lost.getMessage());
  }

  /** Some systems keep a rest of the queue for themselves: the recording is whole all the same. */
  @Test
  void aQueueThatIsNeverQuiteEmptyLosesNoRecording() {
    system.neverQuiteEmpty(64);
    int[] left = {400};
    TransportRun run =
        new Transport(system)
            .run(
                new Transport.Route(system.playback(), FORMAT),
                (block, frames) -> left[0]-- > 0 ? frames : 0,
                new Transport.Route(system.recording(), FORMAT),
                0.3,
                (block, frames) -> {});
    assertFalse(run.stopped());
    // 400 blocks of 5 ms and what follows, on a clock that the test itself moves.
    assertTrue(run.recorded() >= (2 + 0.3) * FORMAT.sampleRate(), "recorded " + run.recorded());
  }

  @Test
  void aSlowSourceIsNoticed() {
    int[] calls = {0};
    TransportRun run =
        new Transport(system)
            .play(
                system.playback(),
                FORMAT,
                (block, frames) -> {
                  if (calls[0]++ == 200) {
                    system.clock().rest(1); // as if the disk had stood still
                  }
                  return calls[0] > 400 ? 0 : frames;
                });
    assertEquals(1, run.dryQueues());
  }
}
