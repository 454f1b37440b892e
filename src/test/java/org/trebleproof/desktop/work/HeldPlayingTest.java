package org.trebleproof.desktop.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.PlaybackLine;
import org.trebleproof.audio.device.RecordingLine;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.audio.device.SoundClock;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;
import org.trebleproof.desktop.text.Texts;

/** The sound follows the hand: without a stage, on a simulated device whose time is the script. */
final class HeldPlayingTest {

  /** Computed strings last so long before they begin anew [s]. */
  private static final double LOOP = 5;

  private static final int RATE = 48000;

  @TempDir Path folder;

  private final ExecutorService worker = Executors.newSingleThreadExecutor();
  private final TaskBoard board = new TaskBoard(worker, Runnable::run);
  private final Scripted system = new Scripted();
  private final Loudspeaker loudspeaker = new Loudspeaker(board, system);
  private final Listening listening =
      new Listening(board, loudspeaker, LatestWins.atOnce(Runnable::run));
  private GuitarOnTrial guitar;
  private HeldPlaying playing;

  /** A simulated device that does things at moments of its own time. */
  private static final class Scripted implements SoundSystem {
    private final SimulatedSoundSystem device = new SimulatedSoundSystem();
    private final NavigableMap<Double, Runnable> script = new TreeMap<>();
    private final CountDownLatch begun = new CountDownLatch(1);
    private final double start = device.clock().seconds();
    private boolean silent;

    @Override
    public List<SoundDevice> devices() {
      return silent ? List.of() : device.devices();
    }

    @Override
    public List<DeviceFormat> formats(SoundDevice of) {
      return device.formats(of);
    }

    @Override
    public PlaybackLine openPlayback(SoundDevice on, DeviceFormat format, double queue) {
      return device.openPlayback(on, format, queue);
    }

    @Override
    public RecordingLine openRecording(SoundDevice on, DeviceFormat format, double queue) {
      return device.openRecording(on, format, queue);
    }

    @Override
    public SoundClock clock() {
      return new SoundClock() {
        @Override
        public double seconds() {
          return device.clock().seconds();
        }

        @Override
        public void rest(double seconds) {
          try {
            assertTrue(begun.await(20, TimeUnit.SECONDS));
          } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
          }
          device.clock().rest(seconds);
          while (!script.isEmpty() && script.firstKey() <= device.clock().seconds() - start) {
            script.pollFirstEntry().getValue().run();
          }
        }
      };
    }
  }

  @BeforeEach
  void layOut() {
    guitar = new GuitarOnTrial(folder.resolve("state"));
    playing = new HeldPlaying(board, guitar.trial, listening, loudspeaker, Runnable::run);
  }

  @AfterEach
  void clear() throws InterruptedException {
    playing.stop();
    worker.shutdown();
    assertTrue(worker.awaitTermination(20, TimeUnit.SECONDS), "the sound has ended");
    guitar.close();
  }

  private float[] playToTheEnd() throws InterruptedException {
    playing.start();
    system.begun.countDown();
    worker.shutdown();
    assertTrue(worker.awaitTermination(20, TimeUnit.SECONDS), "the sound has ended");
    return system.device.played();
  }

  private static double level(float[] samples, double from, double to) {
    double sum = 0;
    for (float sample : Arrays.copyOfRange(samples, (int) (from * RATE), (int) (to * RATE))) {
      sum += sample * sample;
    }
    return 10 * Math.log10(sum);
  }

  @Test
  void startsQuietFollowsThePotAndStops() throws InterruptedException {
    Map<String, String> turned = Map.of("volumeRotation", "0.4");
    system.script.put(LOOP - 0.2, () -> guitar.trial.change(turned));
    system.script.put(2 * LOOP, () -> playing.stop());
    float[] heard = playToTheEnd();
    assertFalse(playing.playingProperty().get());
    assertEquals(Optional.empty(), playing.problemProperty().get());
    // Peaks at -20 dB by themselves, and 20 dB down at the start.
    double loudest = 0;
    for (int i = 0; i < (LOOP - 0.3) * RATE; i++) {
      loudest = Math.max(loudest, Math.abs(heard[i]));
    }
    assertEquals(0.01, loudest, 2e-4);
    SignalChain changed =
        GuitarOnTrial.GUITAR.with(
            Trial.THEN, GuitarOnTrial.GUITAR.layout(Optional.empty()), turned);
    Rendering reference =
        Rendering.of(
            changed,
            GuitarOnTrial.GUITAR.layout(Optional.empty()),
            changed.layout(Optional.of(Trial.THEN)),
            Optional.empty(),
            false);
    // Within a loop from well after the fade-in to before its end, and the same one loop later.
    double expected =
        level(reference.after(), 0.8, LOOP - 0.4) - level(reference.before(), 0.8, LOOP - 0.4);
    double found = level(heard, LOOP + 0.8, 2 * LOOP - 0.4) - level(heard, 0.8, LOOP - 0.4);
    assertTrue(expected < -3, "the change is plain to hear: " + expected);
    // 16 bits at 40 dB down.
    assertEquals(expected, found, 0.1);
  }

  @Test
  void theLevelIsTurnedWhileItSounds() throws InterruptedException {
    system.script.put(1.0, () -> loudspeaker.levelProperty().set(-8));
    system.script.put(LOOP + 1, () -> loudspeaker.levelProperty().set(-20));
    system.script.put(2 * LOOP + 1, () -> playing.stop());
    float[] heard = playToTheEnd();
    assertEquals(12, level(heard, 1.8, LOOP) - level(heard, LOOP + 1.8, 2 * LOOP), 0.1);
  }

  @Test
  void withoutADeviceItSaysSo() throws InterruptedException {
    system.silent = true;
    playToTheEnd();
    assertEquals(Optional.of(Texts.of("listen.no.device")), playing.problemProperty().get());
    assertFalse(playing.playingProperty().get());
  }

  @Test
  void stopsWhenTheGuitarIsTakenAway() throws InterruptedException {
    system.script.put(0.5, () -> guitar.trial.show(Optional.empty()));
    float[] heard = playToTheEnd();
    assertTrue(heard.length < 0.8 * RATE, heard.length + " samples");
    assertFalse(playing.playingProperty().get());
  }

  @Test
  void mayBeStoppedBeforeItSounds() {
    playing.start();
    playing.stop();
    system.begun.countDown();
    assertFalse(playing.playingProperty().get());
  }

  @Test
  void withoutAGuitarNothingSounds() {
    guitar.trial.show(Optional.empty());
    playing.start();
    assertFalse(playing.playingProperty().get());
  }
}
