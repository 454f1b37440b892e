package org.trebleproof.cli.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.device.CircuitWiring;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.cli.shelf.ShelfAgainCommand;
import org.trebleproof.report.words.TextStyle;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfAddress;
import org.trebleproof.shelf.store.ShelfStore;
import org.trebleproof.signal.strike.PluckedString;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** The live commands on a simulated interface: what a person types and reads. */
final class LiveCommandsTest {

  private static final String[] SHORT = {"--seconds", "1", "--repeats", "3", "--gap", "0.5"};

  @TempDir Path folder;

  private final SimulatedSoundSystem system = new SimulatedSoundSystem();
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private InputStream keys = InputStream.nullInputStream();

  private int run(Subcommand command, TextStyle style, String... arguments) throws IOException {
    PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8);
    Terminal terminal = new Terminal(stream, stream, StandardCharsets.UTF_8, style);
    CommandSpec spec = command.spec().name("test");
    return command.run(new CommandLine(spec).parseArgs(arguments), terminal);
  }

  private String said() {
    return out.toString(StandardCharsets.UTF_8);
  }

  private static String[] with(String[] more, String... first) {
    List<String> all = new java.util.ArrayList<>(List.of(first));
    all.addAll(List.of(more));
    return all.toArray(String[]::new);
  }

  @Test
  void devicesListsWhatOpens() throws IOException {
    assertEquals(0, run(new DevicesCommand(() -> system), TextStyle.PLAIN));
    assertEquals(
        """
        Playback
          simulated out
            44100, 48000, 96000 Hz: 16/24 bits, 2 channels
        Recording
          simulated in
            44100, 48000, 96000 Hz: 16/24 bits, 2 channels
        """,
        said().replace(System.lineSeparator(), "\n"));
  }

  @Test
  void measuresWithAMeterAndTheCautionFirst() throws IOException {
    system.wiring(new CircuitWiring(CircuitWiring.coil(100e3, 7000, 3, 180e-12, 1e6), 48000, 2e-5));
    Path job = folder.resolve("job.json");
    Files.writeString(
        job,
        """
        {"trebleproof": 1,
         "fixture": {"kind": "series", "seriesResistance": "100k 0.1%",
           "channels": {"ratio": "1 0.05%", "delay": "0 0.02us"},
           "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
         "parts": {"coil": {"kind": "pickup"}}, "setups": {"bare": {"pickup": "coil"}},
         "captures": []}
        """);
    int exit =
        run(
            new MeasureCommand(() -> system, keys),
            TextStyle.ANSI,
            with(SHORT, job.toString(), "coil", "--until", "inductance 5%"));
    assertEquals(0, exit, said());
    assertTrue(said().startsWith("Before the first sound: take headphones off"), said());
    assertTrue(said().contains("\rref "), "a meter that is drawn over");
    assertFalse(said().contains("CLIP"), said());
    assertTrue(said().contains("done."), said());
    assertTrue(Files.exists(folder.resolve("coil.wav")));
  }

  private static final String[] BENCH = {
    "--next",
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
    "--bench",
    "bench a"
  };

  private int evening(Function<InputStream, Subcommand> command, String typed, String... more)
      throws IOException {
    return run(
        command.apply(new ByteArrayInputStream(typed.getBytes(StandardCharsets.UTF_8))),
        TextStyle.PLAIN,
        with(with(more, BENCH), with(SHORT, "--shelf", folder.resolve("s.db").toString())));
  }

  private List<ShelvedCoil> shelf() {
    try (ShelfStore store =
        ShelfStore.existing(ShelfAddress.of(folder.resolve("s.db").toString()))) {
      return store.measurements(false);
    }
  }

  @Test
  void coilAfterCoilEachKeptWithItsLight() throws IOException {
    var coil = new CircuitWiring(CircuitWiring.coil(100e3, 7000, 3, 180e-12, 1e6), 48000, 2e-5);
    var open = new CircuitWiring(parallel(110e-12), 48000, 2e-5);
    int[] before = {0};
    system.wiring(
        (played, recorded) ->
            (system.runs() == before[0] + 1 ? open : coil).pass(played, recorded));
    before[0] = Integer.MAX_VALUE - 1;
    // the name that is proposed, then another one, then the next
    assertEquals(
        0,
        evening(k -> new MeasureCommand(() -> system, k), "\nblue 1\n\nq\n", "--name", "grey 6"),
        said());
    List<ShelvedCoil> coils = shelf();
    assertEquals(
        List.of("blue 1", "blue 2", "grey 6"), coils.stream().map(ShelvedCoil::name).toList());
    for (ShelvedCoil c : coils) {
      assertEquals(CoilState.GOOD, c.state(), c.reason());
      assertEquals("bench a", c.circumstances().bench());
      // the circuit that was wired
      assertTrue(c.value(CoilValue.INDUCTANCE).orElseThrow().contains(3), c.values().toString());
    }
    assertEquals(1, said().split("Level set", -1).length - 1, "the level is kept: " + said());
    assertTrue(said().contains("Next \"grey 6\": Enter"), said());
    assertTrue(said().contains("Next \"blue 2\": Enter"), said());
    assertTrue(said().contains("GOOD  grey 6 is recorded and kept."), said());
    assertTrue(said().contains("  grey 6  6.997k ±"), said());
    assertTrue(said().contains(", 2.999 ±"), said());

    // an open one is said at once and kept; then measured once more, whole
    out.reset();
    before[0] = system.runs();
    assertEquals(
        0, evening(k -> new MeasureCommand(() -> system, k), "\n\n", "--level", "-12"), said());
    assertTrue(said().contains("Next \"blue 3\""), said());
    assertTrue(said().contains("NOT GOOD  Capture blue 3: no current passes the coil"), said());
    assertTrue(said().contains("\"blue 3\" once more? Enter; n for \"blue 4\""), said());
    List<ShelvedCoil> twice = shelf().stream().filter(c -> c.name().equals("blue 3")).toList();
    assertEquals(
        List.of(CoilState.OPEN, CoilState.GOOD), twice.stream().map(ShelvedCoil::state).toList());
  }

  @Test
  void recordedCoilsWaitAndAreWorkedOutLater() throws IOException {
    system.wiring(new CircuitWiring(CircuitWiring.coil(100e3, 7000, 3, 180e-12, 1e6), 48000, 2e-5));
    assertEquals(
        0, evening(k -> new RecordCommand(() -> system, k), "grey 1\n", "--level", "-12"), said());
    assertEquals(CoilState.WAITING, shelf().get(0).state());
    out.reset();
    assertEquals(
        0,
        run(new ShelfAgainCommand(), TextStyle.PLAIN, "--shelf", folder.resolve("s.db").toString()),
        said());
    assertTrue(said().contains("worked out, good."), said());
    assertTrue(said().contains("0 as before, 0 changed, 1 for the first time."), said());
    assertEquals(CoilState.GOOD, shelf().get(0).state());
    // the same coil at another bench: its name is proposed
    out.reset();
    assertEquals(
        0,
        evening(k -> new RecordCommand(() -> system, k), "\n\nq\n", "--level", "-13", "--again"),
        said());
    assertTrue(said().contains("Next \"grey 1\""), said());
    assertTrue(said().contains("No coil is left"), said());
  }

  @Test
  void whatTheRunOfCoilsCannotDoIsSaid() throws IOException {
    for (String[] more :
        new String[][] {{"--setup", "x"}, {"--across", "clip"}, {"job.json", "before"}}) {
      assertThrows(
          WrongUsage.class, () -> evening(k -> new RecordCommand(() -> system, k), "\n", more));
    }
    Path job = strikeJob();
    for (String[] words :
        new String[][] {
          {job.toString(), "now", "--bench", "b"},
          {job.toString(), "now", "--fixture", "series"},
          {job.toString(), "now", "--name", "grey"},
          {job.toString()},
          {}
        }) {
      assertThrows(
          WrongUsage.class,
          () -> run(new MeasureCommand(() -> system, keys), TextStyle.PLAIN, words));
    }
    assertEquals(0, system.runs());
    // a name that is taken is not lost: it is asked for again
    system.wiring(new CircuitWiring(CircuitWiring.coil(100e3, 7000, 3, 180e-12, 1e6), 48000, 2e-5));
    evening(k -> new RecordCommand(() -> system, k), "grey 1\ngrey 1\n", "--level", "-12");
    assertTrue(said().contains("Not recorded: there is a coil \"grey 1\""), said());
    assertTrue(said().contains("\"grey 2\" is free"), said());
  }

  private Path strikeJob() throws IOException {
    Path job = folder.resolve("job.json");
    Files.writeString(
        job,
        """
        {"trebleproof": 1,
         "fixture": {"kind": "strike", "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
         "parts": {"coil": {"kind": "pickup"}}, "setups": {"now": {"pickup": "coil"}},
         "captures": []}
        """);
    return job;
  }

  private void struck() {
    float[] x = new float[12 * 48000];
    SplittableRandom random = new SplittableRandom(71);
    for (int i = 0; i < 5; i++) {
      PluckedString.add(
          x,
          48000,
          (int) ((1.5 + 1.5 * i) * 48000),
          new PluckedString.Pluck(110, 5e-5, 0.19, 0.15),
          f -> 1 / (1 + f * f / 2.5e7),
          random);
    }
    int[] at = {0};
    system.wiring((played, recorded) -> recorded[0] = x[at[0]++] + 1e-5 * random.nextDouble());
  }

  @Test
  void strikesAreCountedAndFitted() throws IOException {
    struck();
    String job = strikeJob().toString();
    assertEquals(
        0,
        run(new MeasureCommand(() -> system, keys), TextStyle.PLAIN, job, "now", "--strikes", "5"));
    assertTrue(said().startsWith("Plug the guitar straight into the recorder"), said());
    assertTrue(said().contains("Strike 5 of 5"), said());
    assertTrue(said().contains("Usable strikes of now: 5 × A2."), said());
    assertTrue(said().contains("  guitar -"), said());
    assertTrue(said().contains("One recording of strikes shows"), said());
    assertTrue(Files.exists(folder.resolve("now.wav")));
  }

  @Test
  void aFileThatIsNoRecordingIsNotTakenIn() throws IOException {
    Path job = strikeJob();
    String before = Files.readString(job);
    Path file = Files.writeString(folder.resolve("song.wav"), "ID3 and then nothing");
    assertThrows(
        org.trebleproof.quantity.Refusal.class,
        () ->
            run(
                new RecordCommand(() -> system, keys),
                TextStyle.PLAIN,
                job.toString(),
                "now",
                "--use",
                file.toString()));
    assertEquals(before, Files.readString(job));
    assertFalse(Files.exists(folder.resolve("now.wav")));
  }

  @Test
  void aRecordingThatIsTakenInIsCountedToo() throws IOException {
    String job = strikeJob().toString();
    String sample = "sample-captures/strikes-pot-swap/before.flac";
    assertEquals(
        0,
        run(new RecordCommand(() -> system, keys), TextStyle.PLAIN, job, "now", "--use", sample));
    assertTrue(said().contains("Usable strikes: 4 × A2, 4 × D3, 4 × G3, 4 × E4."), said());
  }

  @Test
  void optionsOfTheOtherKindOfJobAreRefused() throws IOException {
    String job = strikeJob().toString();
    for (Subcommand command :
        List.of(new RecordCommand(() -> system, keys), new MeasureCommand(() -> system, keys))) {
      WrongUsage usage =
          assertThrows(
              WrongUsage.class,
              () -> run(command, TextStyle.PLAIN, job, "now", "--ceiling", "-12"));
      assertTrue(usage.getMessage().contains("play nothing"), usage.getMessage());
    }
    assertThrows(
        WrongUsage.class,
        () ->
            run(
                new MeasureCommand(() -> system, keys),
                TextStyle.PLAIN,
                job,
                "now",
                "--until",
                "inductance 5%"));
    assertThrows(
        WrongUsage.class,
        () ->
            run(
                new RecordCommand(() -> system, keys),
                TextStyle.PLAIN,
                job,
                "now",
                "--strikes",
                "0"));
    assertEquals(0, system.runs(), "nothing was recorded");
  }

  @Test
  void calibratesAndChecks() throws IOException {
    String[] bench =
        with(
            SHORT,
            "a bench",
            "--series-resistance",
            "100k 0.1%",
            "--folder",
            folder.toString(),
            "--yes",
            "--level",
            "-12",
            "--standard",
            "film 1n");
    var loop = new CircuitWiring(hz -> new double[] {1.002, 0}, 48000, 1e-5);
    var open = new CircuitWiring(parallel(85e-12), 48000, 1e-5);
    var film = new CircuitWiring(parallel(1085e-12), 48000, 1e-5);
    // The level is given, so each step is one run.
    system.wiring(
        (played, recorded) ->
            (system.runs() <= 1 ? loop : system.runs() <= 2 ? open : film).pass(played, recorded));
    assertEquals(0, run(new CalibrateCommand(() -> system), TextStyle.PLAIN, bench), said());
    String file = Files.readString(folder.resolve("a-bench.json"));
    assertTrue(file.contains("\"capacitance\" : \"8"), file);
    assertEquals(0, run(new CheckCommand(() -> system), TextStyle.PLAIN, bench), said());
    assertTrue(said().contains("agrees"), said());
    system.wiring(loop);
    assertThrows(
        org.trebleproof.quantity.Refusal.class,
        () -> run(new CheckCommand(() -> system), TextStyle.PLAIN, bench),
        "the wrong plug");
  }

  private static java.util.function.DoubleFunction<double[]> parallel(double capacitance) {
    return hz -> {
      double re = 1 + 100e3 / 1.02e6;
      double im = 100e3 * 2 * Math.PI * hz * capacitance;
      double size = re * re + im * im;
      return new double[] {re / size, -im / size};
    };
  }
}
