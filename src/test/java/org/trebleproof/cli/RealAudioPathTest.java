package org.trebleproof.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.RecordedSound;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundServer;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.audio.device.TransportRun;

/** The commands on a real audio path: a sound server, and a filter in it like a pickup. */
@Tag("soundserver")
final class RealAudioPathTest {

  private static final long SEED = 2026;
  private static final int RATE = 48000;

  /** What pickup_filter.c is made of. */
  private static final double RESISTANCE = 7000;

  private static final double INDUCTANCE = 3;
  private static final double CAPACITANCE = 600e-12;
  private static final double INPUT = 1e6;

  private static final String JOB =
      """
      {
        "trebleproof": 1,
        "fixture": {"kind": "series", "seriesResistance": "100k 0.1%",
          "channels": {"ratio": "1 0.05%", "delay": "0 0.02us"},
          "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
        "parts": {"coil": {"kind": "pickup"}, "lead": {"kind": "cable", "capacitance": "420p 10%"}},
        "setups": {"plugged": {"pickup": "coil", "cable": "lead"}},
        "captures": []
      }
      """;

  private static Path filter;

  /** One of its own for each test: one whose sinks or clients were torn away may end much later. */
  private SoundServer server;

  @TempDir Path folder;
  private Path job;

  @BeforeAll
  static void compileFilter() throws IOException, InterruptedException {
    filter = Path.of("target", "sound", "pickup_filter.so").toAbsolutePath();
    Files.createDirectories(filter.getParent());
    Process compiler =
        new ProcessBuilder(
                "gcc",
                "-O2",
                "-fPIC",
                "-shared",
                "-o",
                filter.toString(),
                "src/test/c/pickup_filter.c",
                "-lm")
            .inheritIO()
            .start();
    assertEquals(0, compiler.waitFor());
  }

  @BeforeEach
  void startServer() throws IOException, InterruptedException {
    server = SoundServer.start();
  }

  @AfterEach
  void stopServer() {
    server.close();
  }

  @BeforeEach
  void writeJob() throws IOException {
    job = folder.resolve("job.json");
    Files.writeString(job, JOB);
  }

  private static SoundDevice device(SoundDevice.Direction direction) {
    return new JavaSoundSystem()
        .devices().stream().filter(d -> d.direction() == direction).findFirst().orElseThrow();
  }

  @Test
  void devicesAreListed() {
    Outcome said = Outcome.of("devices");
    assertEquals(0, said.exitCode(), said.err());
    assertTrue(said.out().contains("48000"), said.out());
    assertTrue(said.out().contains("24"), said.out());
  }

  @Test
  void sixtySecondsPassWithoutALostSample() {
    float[] noise = new float[60 * RATE];
    SplittableRandom chance = new SplittableRandom(SEED);
    for (int i = 0; i < noise.length; i++) {
      noise[i] = chance.nextInt(-1 << 22, 1 << 22) * 0x1p-23f;
    }
    RecordedSound heard = new RecordedSound();
    DeviceFormat format = new DeviceFormat(RATE, 24, 2);
    TransportRun run =
        new Transport(new JavaSoundSystem())
            .run(
                new Transport.Route(device(SoundDevice.Direction.PLAYBACK), format),
                PlayedSound.of(new float[][] {noise}, 0),
                new Transport.Route(device(SoundDevice.Direction.RECORDING), format),
                0.7,
                heard);
    float[] left = heard.channel(0);
    int at = 0;
    while (at + noise.length <= left.length && left[at] != noise[0]) {
      at++;
    }
    long different = 0;
    for (int i = 0; i < noise.length; i++) {
      if (at + i >= left.length || left[at + i] != noise[i]) {
        different++;
      }
    }
    System.out.println("60 s: " + different + " samples differ, " + run);
    assertEquals(0, different);
    assertTrue(run.unbroken(), run.toString());
  }

  @Test
  void theFiltersResonanceIsMeasured() throws IOException, InterruptedException {
    loadFilter();
    Path json = folder.resolve("result.json");
    Outcome said =
        Outcome.of(
            "measure",
            job.toString(),
            "plugged",
            "--repeats",
            "3",
            "--seconds",
            "3",
            "--until",
            "inductance 1%",
            "--json",
            json.toString());
    System.out.println(said.out());
    assertEquals(0, said.exitCode(), said.err());
    String result = Files.readString(json);
    double[] theory = resonance();
    double hz = value(result, "plugged.resonance");
    double peak = value(result, "plugged.resonancePeak");
    System.out.printf(
        "filter: %.3f Hz %.4f dB; measured %+.5f %% %+.5f dB%n",
        theory[0], theory[1], 100 * (hz / theory[0] - 1), peak - theory[1]);
    assertEquals(theory[0], hz, 0.001 * theory[0]);
    assertEquals(theory[1], peak, 0.05);
    assertEquals(INDUCTANCE, value(result, "pickup.inductance"), 0.01 * INDUCTANCE);
  }

  @Test
  void coilsGoOntoTheShelfOneAfterTheOther() throws IOException, InterruptedException {
    loadFilter();
    InputStream keys = System.in;
    try {
      System.setIn(new ByteArrayInputStream("\n\nq\n".getBytes(StandardCharsets.UTF_8)));
      String shelf = folder.resolve("shelf.db").toString();
      String[] evening = {
        "measure",
        "--next",
        "--name",
        "grey 6",
        "--shelf",
        shelf,
        "--fixture",
        "series",
        "--series-resistance",
        "100k 0.1%",
        "--channel-ratio",
        "1 0.05%",
        "--channel-delay",
        "0 0.02us",
        "--input-resistance",
        "1M 1%",
        "--input-capacitance",
        "80p 3%",
        "--repeats",
        "2",
        "--seconds",
        "3"
      };
      Outcome said = Outcome.of(evening);
      System.out.println(said.out());
      assertEquals(0, said.exitCode(), said.err());
      assertTrue(said.out().contains("GOOD  grey 7"), said.out());
      assertEquals(1, said.out().split("Level set", -1).length - 1, "the level is kept");
      Outcome list = Outcome.of("shelf", "list", "--shelf", shelf);
      assertTrue(list.out().contains("grey 6") && list.out().contains("grey 7"), list.out());
    } finally {
      System.setIn(keys);
    }
  }

  /** What is played goes through the filter before it comes to the default sink. */
  private void loadFilter() throws IOException, InterruptedException {
    server.control(
        "load-module",
        "module-ladspa-sink",
        "sink_name=pickup",
        "sink_master=" + SoundServer.OUT,
        "plugin=" + filter,
        "label=pickup");
    server.control("set-default-sink", "pickup");
  }

  private static double value(String json, String key) {
    Matcher found =
        Pattern.compile("\"key\" : \"" + key + "\".*?\"value\" : ([-+.eE0-9]+)", Pattern.DOTALL)
            .matcher(json);
    assertTrue(found.find(), key + " in " + json);
    return Double.parseDouble(found.group(1));
  }

  /** Peak of terminal voltage over induced voltage, and its level over that at 20 Hz. */
  private static double[] resonance() {
    double best = 0;
    double at = 0;
    for (double hz = 2000; hz < 6000; hz += 0.01) {
      double level = level(hz);
      if (at == 0 || level > best) {
        best = level;
        at = hz;
      }
    }
    return new double[] {at, best - level(20)};
  }

  /** Of 1 / ((R + jwL) (jwC + G) + 1). */
  private static double level(double hz) {
    double w = 2 * Math.PI * hz;
    double re = 1 + RESISTANCE / INPUT - w * INDUCTANCE * w * CAPACITANCE;
    double im = w * (RESISTANCE * CAPACITANCE + INDUCTANCE / INPUT);
    return -10 * Math.log10(re * re + im * im);
  }

  @Test
  void aSinkThatVanishesLeavesAClearWordAndNothingBroken()
      throws IOException, InterruptedException {
    // The only sink: from a sink among others the server would move the sound to the next.
    String module = server.module("module-null-sink");
    Thread puller =
        new Thread(
            () -> {
              try {
                Thread.sleep(5000);
                server.control("unload-module", module);
              } catch (IOException | InterruptedException e) {
                throw new IllegalStateException(e);
              }
            });
    puller.start();
    Outcome said =
        Outcome.of("record", job.toString(), "plugged", "--level", "-20", "--seconds", "3");
    puller.join();
    System.out.println("sink removed: " + said.err().strip());
    assertEquals(1, said.exitCode(), said.out());
    assertTrue(said.err().contains("sound device"), said.err());
    assertEquals(JOB, Files.readString(job));
    assertFalse(Files.exists(folder.resolve("plugged.wav")));
    Recording saved = SoundFile.read(folder.resolve("plugged.unfinished.wav"));
    assertTrue(saved.seconds() > 2.5, "saved " + saved.seconds());
  }

  /** Ends a recording process at random moments and looks what is left. */
  @Test
  void aKilledRecordingLosesLessThan100Milliseconds() throws IOException, InterruptedException {
    SplittableRandom chance = new SplittableRandom(SEED);
    System.out.println("seed " + SEED);
    double worst = 0;
    DeviceFormat format = new DeviceFormat(RATE, 24, 2);
    SoundDevice in = device(SoundDevice.Direction.RECORDING);
    for (int round = 0; round < 50; round++) {
      Path here = Files.createDirectory(folder.resolve("round" + round));
      Path theJob = here.resolve("job.json");
      Files.writeString(theJob, JOB);
      Process child = recording(theJob, here.resolve("said.txt"));
      RecordedSound heard = new RecordedSound();
      Transport witness = new Transport(new JavaSoundSystem());
      Path file = here.resolve("plugged.unfinished.wav");
      long[] limits = {0, 0};
      long after = chance.nextLong(200, 1500);
      witness.listen(
          in,
          format,
          (block, frames) -> {
            heard.block(block, frames);
            long now = System.nanoTime();
            if (limits[0] == 0 && loud(block, frames)) {
              limits[0] = now + TimeUnit.MILLISECONDS.toNanos(after);
            } else if (limits[0] != 0 && limits[1] == 0 && now > limits[0]) {
              child.destroyForcibly();
              limits[1] = now + TimeUnit.MILLISECONDS.toNanos(400);
            } else if (limits[1] != 0 && now > limits[1]) {
              witness.stop();
            }
          });
      child.waitFor();
      worst = Math.max(worst, lost(SoundFile.read(file).channel(1), heard.channel(0)));
    }
    System.out.printf("50 kills: at most %.1f ms lost%n", 1000 * worst);
    assertTrue(worst < 0.1, "lost " + worst);
  }

  /** A background job of a shell is born deaf to INT and hands that on, so it is given back. */
  private static Process recording(Path theJob, Path said) throws IOException {
    return new ProcessBuilder(
            "env",
            "--default-signal=INT",
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-XX:TieredStopAtLevel=1",
            "-XX:+UseSerialGC",
            "-cp",
            System.getProperty("java.class.path"),
            "org.trebleproof.cli.Main",
            "record",
            theJob.toString(),
            "plugged",
            "--level",
            "-20")
        .redirectErrorStream(true)
        .redirectOutput(said.toFile())
        .start();
  }

  /** Ctrl-C in a terminal is the signal INT. */
  @Test
  void anInterruptFadesOut() throws IOException, InterruptedException {
    Path said = folder.resolve("said.txt");
    Process child = recording(job, said);
    RecordedSound heard = new RecordedSound();
    Transport witness = new Transport(new JavaSoundSystem());
    long[] sounded = {0, 0, 0, 0};
    witness.listen(
        device(SoundDevice.Direction.RECORDING),
        new DeviceFormat(RATE, 24, 2),
        (block, frames) -> {
          heard.block(block, frames);
          sounded[2] += frames;
          if (sounded[0] == 0 && loud(block, frames)) {
            sounded[0] = sounded[2];
          } else if (sounded[0] != 0 && sounded[1] == 0 && sounded[2] > sounded[0] + 2 * RATE) {
            sounded[1] = sounded[2];
            try {
              new ProcessBuilder("kill", "-INT", Long.toString(child.pid())).start().waitFor();
            } catch (IOException | InterruptedException e) {
              throw new IllegalStateException(e);
            }
          } else if (sounded[1] != 0 && !child.isAlive()) {
            // However long the machine takes for it: what the child played is heard by then.
            sounded[3] = sounded[3] == 0 ? sounded[2] : sounded[3];
            if (sounded[2] > sounded[3] + RATE) {
              witness.stop();
            }
          }
        });
    child.waitFor();
    float[] x = heard.channel(0);
    int last = x.length - 1;
    while (last > 0 && x[last] == 0) {
      last--;
    }
    float step = 0;
    for (int n = Math.max(0, last - RATE / 20); n <= Math.min(last, x.length - 2); n++) {
      step = Math.max(step, Math.abs(x[n + 1] - x[n]));
    }
    System.out.printf(
        "interrupt: silent %.0f ms after the signal, largest step %.4f%n",
        1000.0 * (last - sounded[1]) / RATE, step);
    assertTrue(Files.readString(said).contains("Stopped."), Files.readString(said));
    assertEquals(JOB, Files.readString(job));
    // The fade itself is shorter than 20 ms; the server and two processes on a busy machine add.
    // That it fades is held on a simulated clock: this server starts anew after what waited in the
    // queue was taken back, and loses the beginning of what follows, so that it makes a cut of it.
    assertTrue(last - sounded[1] < 0.1 * RATE, "after " + (last - sounded[1]));
  }

  private static boolean loud(float[][] block, int frames) {
    for (int i = 0; i < frames; i++) {
      if (Math.abs(block[0][i]) > 0.01) {
        return true;
      }
    }
    return false;
  }

  /** What sounded and is not in the file [s]: both recordings end with the same sound. */
  private static double lost(float[] file, float[] witness) {
    int last = witness.length - 1;
    while (last > 0 && witness[last] == 0) {
      last--;
    }
    int end = file.length - 1;
    while (end > 0 && file[end] == 0) {
      end--;
    }
    // The file's last sounding stretch, looked for in what the witness heard.
    int length = Math.min(4000, end);
    for (int at = last; at >= length; at--) {
      int same = 0;
      while (same < length && witness[at - same] == file[end - same]) {
        same++;
      }
      if (same == length) {
        return (last - at) / (double) RATE;
      }
    }
    throw new AssertionError("the file's sound was not found in what was heard");
  }
}
