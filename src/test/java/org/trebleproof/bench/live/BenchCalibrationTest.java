package org.trebleproof.bench.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.function.DoubleFunction;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.audio.device.CircuitWiring;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.RecordedSound;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.live.BenchCalibration.Step;
import org.trebleproof.fixture.Calibration;
import org.trebleproof.fixture.CalibrationFile;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Refusal;

/** A bench of known values: ratio 1.0021, delay 0.3 us, input 1.02 Mohm and 85 pF. */
final class BenchCalibrationTest {

  private static final int RATE = 48000;
  private static final double SERIES = 100e3;
  private static final double RATIO = 1.0021;
  private static final double DELAY = 0.3e-6;
  private static final double INPUT_RESISTANCE = 1.02e6;
  private static final double INPUT_CAPACITANCE = 85e-12;

  @TempDir Path folder;

  private BenchCalibration calibration(LocalDate today) {
    return new BenchCalibration(
        folder.resolve("bench.json"), "bench", new Marking(SERIES, 0.001, true), today);
  }

  /** A recording with this between the channels, seen through the interface's own difference. */
  private Path record(DoubleFunction<double[]> between) {
    return record(between, -12);
  }

  private Path record(DoubleFunction<double[]> between, double level) {
    DoubleFunction<double[]> seen =
        hz -> {
          double[] h = between.apply(hz);
          double turn = -2 * Math.PI * hz * DELAY;
          return new double[] {
            RATIO * (h[0] * Math.cos(turn) - h[1] * Math.sin(turn)),
            RATIO * (h[1] * Math.cos(turn) + h[0] * Math.sin(turn))
          };
        };
    SimulatedSoundSystem system =
        new SimulatedSoundSystem().wiring(new CircuitWiring(seen, RATE, 1e-5));
    RecordedSound heard = new RecordedSound();
    DeviceFormat format = new DeviceFormat(RATE, 24, 2);
    Stimulus stimulus =
        new Stimulus(RATE, WavWriter.Encoding.PCM24, 1, 20, 20000, 2, 0.4, level, false);
    new Transport(system)
        .run(
            new Transport.Route(system.playback(), format),
            PlayedSound.of(new float[][] {stimulus.samples()}, 0),
            new Transport.Route(system.recording(), format),
            0.4,
            heard);
    Path file = folder.resolve("step.wav");
    WavWriter.write(
        file, new float[][] {heard.channel(0), heard.channel(1)}, RATE, WavWriter.Encoding.PCM24);
    return file;
  }

  /** Behind the series resistor: conductance and capacitance beside the input's own. */
  private static DoubleFunction<double[]> parallel(double conductance, double capacitance) {
    return hz -> {
      double re = 1 + SERIES * (conductance + 1 / INPUT_RESISTANCE);
      double im = SERIES * 2 * Math.PI * hz * (capacitance + INPUT_CAPACITANCE);
      double size = re * re + im * im;
      return new double[] {re / size, -im / size};
    };
  }

  private static DoubleFunction<double[]> loopback() {
    return hz -> new double[] {1, 0};
  }

  private static void take(BenchCalibration calibration, Step step, Path file) {
    calibration.take(step, file, 1, 2, "film 1n");
  }

  private static void assertWithin(double truth, Marking found) {
    assertEquals(truth, found.value(), found.tolerance() * found.value());
    assertTrue(found.tolerance() < 0.02, "and tells something: " + found.tolerance());
  }

  @Test
  void fourStepsFindTheBench() {
    BenchCalibration calibration = calibration(LocalDate.of(2026, 3, 1));
    take(calibration, Step.LOOPBACK, record(loopback()));
    take(calibration, Step.INPUT, record(parallel(0, 0)));
    take(calibration, Step.STANDARD, record(parallel(0, 1e-9)));
    // Sense resistor 10 ohm, coil 40 ohm and 1 mH: 1 + R/Rs + jwL/Rs, thirteen times the sense.
    take(
        calibration,
        Step.EXCITER,
        record(hz -> new double[] {5, 2 * Math.PI * hz * 1e-3 / 10}, -40));
    calibration.finish(false);
    Calibration c = CalibrationFile.read(folder.resolve("bench.json"));
    assertWithin(RATIO, c.channels().orElseThrow().ratio());
    assertEquals(
        DELAY, c.channels().orElseThrow().delay(), c.channels().orElseThrow().delayHalfWidth());
    assertWithin(INPUT_RESISTANCE, c.input().orElseThrow().resistance());
    assertWithin(INPUT_CAPACITANCE, c.input().orElseThrow().capacitance());
    assertEquals(50 / (2 * Math.PI * 1e-3), c.exciterCorner().orElseThrow(), 50);
    BenchHistory.Entry standard =
        BenchHistory.read(folder.resolve("bench.history.csv")).entries().stream()
            .filter(e -> e.quantity().equals("standard film 1n"))
            .findFirst()
            .orElseThrow();
    assertEquals(1e-9, standard.value(), 0.003e-9);
  }

  @Test
  void eachStepSaysWhatIsWrong() {
    BenchCalibration calibration = calibration(LocalDate.of(2026, 3, 1));
    Path open = record(parallel(0, 0));
    Path coil = folder.resolve("coil.wav");
    assertSays(calibration, Step.LOOPBACK, open, "nothing behind it");
    take(calibration, Step.LOOPBACK, record(loopback()));
    assertSays(calibration, Step.INPUT, record(parallel(0, 1e-9)), "a capacitor");
    assertSays(calibration, Step.INPUT, record(parallel(1e-5, 0)), "a resistor");
    assertSays(
        calibration,
        Step.STANDARD,
        record(CircuitWiring.coil(SERIES, 7000, 3, 180e-12, 1e6)),
        "a coil");
    assertSays(calibration, Step.INPUT, record(loopback()), "a loopback");
    assertFalse(coil.toFile().exists());
  }

  private static void assertSays(BenchCalibration calibration, Step step, Path file, String words) {
    String said =
        assertThrows(
                BenchCalibration.WrongPlug.class,
                () -> calibration.take(step, file, 1, 2, "film 1n"))
            .getMessage();
    assertTrue(said.startsWith("This looks like") && said.contains(words), said);
  }

  @Test
  void aCheckTellsADriftingBenchFromASteadyOne() {
    BenchCalibration first = calibration(LocalDate.of(2026, 3, 1));
    take(first, Step.LOOPBACK, record(loopback()));
    take(first, Step.INPUT, record(parallel(0, 0)));
    take(first, Step.STANDARD, record(parallel(0, 1e-9)));
    assertTrue(first.finish(false).counts());
    BenchCalibration same = calibration(LocalDate.of(2026, 3, 2));
    take(same, Step.STANDARD, record(parallel(0, 1e-9)));
    List<BenchHistory.Agreement> steady = same.check().agreements();
    assertTrue(steady.get(0).agrees(), steady.toString());
    BenchCalibration other = calibration(LocalDate.of(2026, 3, 3));
    take(other, Step.STANDARD, record(parallel(0, 1.01e-9)));
    BenchCalibration.Visit visit = other.check();
    assertFalse(visit.counts());
    List<BenchHistory.Agreement> drifted = visit.agreements();
    assertFalse(drifted.get(0).agrees(), drifted.toString());
    assertEquals(0.01, drifted.get(0).difference(), 0.001);
    assertEquals(2, drifted.get(0).visits());
    // A drifted day must not make the next drifted day agree.
    BenchCalibration again = calibration(LocalDate.of(2026, 3, 4));
    take(again, Step.STANDARD, record(parallel(0, 1.01e-9)));
    BenchCalibration.Visit next = again.check();
    assertFalse(next.counts());
    assertEquals(2, next.agreements().get(0).visits());
    // Unless it is wanted.
    BenchCalibration changed = calibration(LocalDate.of(2026, 3, 5));
    take(changed, Step.STANDARD, record(parallel(0, 1.01e-9)));
    assertFalse(changed.finish(false).counts());
    assertTrue(changed.finish(true).counts());
    BenchCalibration since = calibration(LocalDate.of(2026, 3, 6));
    take(since, Step.STANDARD, record(parallel(0, 1.01e-9)));
    assertTrue(since.check().counts());
  }

  @Test
  void aResistorIsNoCapacitorThatChanged() throws IOException {
    BenchCalibration first = calibration(LocalDate.of(2026, 3, 1));
    take(first, Step.LOOPBACK, record(loopback()));
    take(first, Step.INPUT, record(parallel(0, 0)));
    take(first, Step.STANDARD, record(parallel(0, 1e-9)));
    first.finish(false);
    String before = Files.readString(folder.resolve("bench.history.csv"));
    BenchCalibration wrong = calibration(LocalDate.of(2026, 3, 2));
    assertSays(wrong, Step.STANDARD, record(parallel(1e-5, 0)), "a resistor");
    assertEquals(before, Files.readString(folder.resolve("bench.history.csv")));
  }

  /** A file's name has no signs: two interfaces must not share one without a word. */
  @Test
  void interfacesThatAFileNameCannotTellApartAreRefused() {
    BenchCalibration first =
        new BenchCalibration(
            BenchCalibration.fileOf(folder, "Box 2"),
            "Box 2",
            new Marking(SERIES, 0.001, true),
            LocalDate.of(2026, 3, 1));
    take(first, Step.LOOPBACK, record(loopback()));
    first.finish(false);
    String said =
        assertThrows(
                Refusal.class,
                () ->
                    new BenchCalibration(
                        BenchCalibration.fileOf(folder, "Box #2"),
                        "Box #2",
                        new Marking(SERIES, 0.001, true),
                        LocalDate.of(2026, 3, 1)))
            .getMessage();
    assertTrue(said.contains("is the calibration of \"Box 2\""), said);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "..", "#", "a\nb", " a", "a\tb"})
  void aNameThatIsNoneIsRefused(String name) {
    assertThrows(Refusal.class, () -> BenchCalibration.fileOf(folder, name));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-03-01,check,x,0,1e-4",
        "2026-03-01,check,x,NaN,1e-4",
        "2026-03-01,check,x,1e308,1e-4",
        "2026-03-01,check,x,1,NaN",
        "2026-03-01,check,x,1,2",
        "2026-03-01,check,,1,1e-4",
        "2026-03-01,look,x,1,1e-4",
        "2026-02-30,check,x,1,1e-4",
        "2026-03-01,check,x,1,1e-4,",
        "2026-03-01,check,x",
        "",
      })
  void aHistoryIsReadStrictly(String line) throws IOException {
    Path file = folder.resolve("h.csv");
    Files.writeString(
        file, "date,occasion,quantity,value,repeatability\n2026-03-01,check,x,1,1e-4\n" + line);
    if (line.isEmpty()) {
      assertEquals(1, BenchHistory.read(file).entries().size());
      return;
    }
    String said = assertThrows(Refusal.class, () -> BenchHistory.read(file)).getMessage();
    assertTrue(said.contains("line 3"), said);
    Files.writeString(file, line);
    String head = assertThrows(Refusal.class, () -> BenchHistory.read(file)).getMessage();
    assertTrue(head.contains("line 1"), head);
  }

  @Test
  void scatterOfTheHistoryCountsByStudentsT() {
    BenchHistory history = BenchHistory.read(folder.resolve("h.csv"));
    LocalDate day = LocalDate.of(2026, 1, 1);
    for (double v : new double[] {0.99, 1.00, 1.01}) {
      history =
          history.with(
              List.of(new BenchHistory.Entry(day, BenchHistory.Occasion.CHECK, "x", v, 1e-4)));
    }
    BenchHistory.Agreement a =
        history.compare(new BenchHistory.Entry(day, BenchHistory.Occasion.CHECK, "x", 1.03, 1e-4));
    // Standard deviation 0.01; t of 2 degrees of freedom at 97.5 % is 4.303 (any table of t).
    assertEquals(4.303 * 0.01 * Math.sqrt(4.0 / 3), a.allowed(), 1e-4);
    assertTrue(a.agrees());
  }
}
