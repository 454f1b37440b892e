package org.trebleproof.desktop.work;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundServer;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.desktop.task.LatestAnswer;
import org.trebleproof.desktop.task.LatestWins;
import org.trebleproof.desktop.task.TaskBoard;

/** Turning while it sounds, through a real sound server: the ear is its monitor. */
@Tag("soundserver")
final class HeldPlayingOnServerTest {

  private static final int RATE = 48000;

  @TempDir Path folder;

  /** Power of what is heard, and where it was turned. */
  private static final class Ear {
    private double power;
    private long frames;

    synchronized void block(float[][] block, int count) {
      for (int i = 0; i < count; i++) {
        power += 0.001 * (block[0][i] * block[0][i] - power);
      }
      frames += count;
    }

    synchronized double level() {
      return 10 * Math.log10(power + 1e-12);
    }

    synchronized long frames() {
      return frames;
    }
  }

  private static void until(String what, java.util.function.BooleanSupplier holds)
      throws InterruptedException {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(15);
    while (!holds.getAsBoolean()) {
      assertTrue(System.nanoTime() < end, "waited in vain until " + what);
      Thread.sleep(5);
    }
  }

  @Test
  void aTurnIsHeardAndALostDeviceIsSaid() throws IOException, InterruptedException {
    JavaSoundSystem system = new JavaSoundSystem();
    ExecutorService workers = Executors.newFixedThreadPool(2);
    Transport listener = new Transport(system);
    Ear ear = new Ear();
    try (SoundServer server = SoundServer.start();
        GuitarOnTrial guitar = new GuitarOnTrial(folder.resolve("state"))) {
      TaskBoard board = new TaskBoard(workers, Runnable::run);
      Loudspeaker loudspeaker = new Loudspeaker(board, system);
      HeldPlaying playing =
          new HeldPlaying(
              board,
              guitar.trial,
              new Listening(board, loudspeaker, LatestWins.atOnce(Runnable::run)),
              loudspeaker,
              LatestAnswer.oneThread("sound"));
      loudspeaker.levelProperty().set(0);
      SoundDevice in =
          system.devices().stream()
              .filter(d -> d.direction() == SoundDevice.Direction.RECORDING)
              .findFirst()
              .orElseThrow();
      workers.execute(() -> listener.listen(in, new DeviceFormat(RATE, 24, 2), ear::block));
      playing.start();
      until("it sounds", () -> ear.level() > -45);
      Thread.sleep(1500);
      double before = ear.level();
      long turned = ear.frames();
      guitar.trial.change(Map.of("volumeRotation", "0.02"));
      until("the turn is heard", () -> ear.level() < before - 15);
      System.out.printf("turn heard after %.0f ms%n", 1000.0 * (ear.frames() - turned) / RATE);
      // The queue, a block of the filter, the server's own queue; the ear takes some time too.
      assertTrue(ear.frames() - turned < 0.6 * RATE, "heard after " + (ear.frames() - turned));
      playing.stop();
      until("it is silent", () -> ear.level() < -100);
      assertFalse(playing.playingProperty().get());

      guitar.trial.change(Map.of());
      playing.start();
      until("it sounds again", () -> ear.level() > -45);
      server.control("unload-module", server.module("module-null-sink"));
      until("the loss is said", () -> playing.problemProperty().get().isPresent());
      String problem = playing.problemProperty().get().get();
      assertTrue(problem.startsWith("The sound device"), problem);
      assertEquals(false, playing.playingProperty().get());
      System.out.println("sink removed while turning: " + problem);
    } finally {
      listener.stop();
      workers.shutdown();
      workers.awaitTermination(5, TimeUnit.SECONDS);
    }
  }
}
