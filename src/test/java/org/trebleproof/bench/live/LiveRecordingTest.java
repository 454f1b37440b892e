package org.trebleproof.bench.live;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.audio.device.CircuitWiring;
import org.trebleproof.audio.device.LevelMeter;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.audio.device.SoundDeviceException;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.Stimulus;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;

/** The live bench against a simulated interface that does what real ones do wrong. */
final class LiveRecordingTest {

  private static final int RATE = 48000;

  private static final int FIRST_TAKE = 1;

  private static final String JOB =
      """
      {
        "trebleproof": 1,
        "title": "made up",
        "fixture": {"kind": "series", "seriesResistance": "100k 0.1%",
          "channels": {"ratio": "1 0.05%", "delay": "0 0.02us"},
          "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
        "parts": {"coil": {"kind": "pickup"}},
        "setups": {"bare": {"pickup": "coil"}},
        "captures": []
      }
      """;

  @TempDir Path folder;

  private Path job;
  private final SimulatedSoundSystem system = new SimulatedSoundSystem();
  private final List<String> said = new ArrayList<>();
  private final List<Finding> findings = new ArrayList<>();
  private final List<List<LevelMeter.Reading>> levels = new ArrayList<>();
  private Transport transport;
  private double gap = 0.5;
  private OptionalDouble level = OptionalDouble.of(-9);

  @BeforeEach
  void writeJob() throws IOException {
    job = folder.resolve("job.json");
    Files.writeString(job, JOB);
    transport = new Transport(system);
    system.wiring(coil(1, 2e-5));
  }

  /** 7 kohm, 3 H, 100 pF and the input's 80 pF and 1 Mohm behind 100 kohm. */
  private static SimulatedSoundSystem.Wiring coil(double gain, double noise) {
    var circuit = new CircuitWiring(CircuitWiring.coil(100e3, 7000, 3, 180e-12, 1e6), RATE, noise);
    return (played, recorded) -> {
      circuit.pass(played, recorded);
      recorded[0] *= gain;
      recorded[1] *= gain;
    };
  }

  private final LiveListener listener =
      new LiveListener() {
        @Override
        public void step(String sentence) {
          said.add(sentence);
        }

        @Override
        public void levels(List<LevelMeter.Reading> shown, double doneShare) {
          levels.add(shown);
        }

        @Override
        public void finding(Finding finding) {
          findings.add(finding);
        }
      };

  private static Stimulus stimulus(double gap) {
    return new Stimulus(RATE, WavWriter.Encoding.PCM24, 1, 20, 20000, 3, gap, -6, false);
  }

  private LiveBench bench() {
    return LiveBench.choose(system, Optional.empty(), Optional.empty(), RATE, 1, 2);
  }

  private CaptureRecorder.Recorded record(String id) {
    JobRecording recording = JobRecording.open(job);
    return recording.record(
        new CaptureRecorder(bench(), transport, listener),
        recording.want(id, Optional.empty(), List.of(), false),
        stimulus(gap),
        level);
  }

  private Refusal refused() {
    Refusal refusal = assertThrows(Refusal.class, () -> record("before"));
    assertFalse(Files.exists(folder.resolve("before.wav")));
    assertEquals(JOB, read(job), "the job is as it was");
    return refusal;
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void recordsIntoTheJobAtASafeLevel() {
    level = OptionalDouble.empty();
    CaptureRecorder.Recorded recorded = record("before");
    assertEquals(1, recorded.takes());
    double top = LevelMeter.decibel(system.loudest());
    assertTrue(top <= -6 + 0.01, "never above the ceiling: " + top);
    Recording sound = SoundFile.read(recorded.file());
    assertEquals(24, sound.bits());
    double peak = 0;
    for (float v : sound.channel(2)) {
      peak = Math.max(peak, Math.abs(v));
    }
    // The resonance takes the device up to the level of the source less 1.5 dB: the ceiling and
    // the range of -12 to -6 dB both hold.
    assertTrue(LevelMeter.decibel(peak) > -12.2 && LevelMeter.decibel(peak) < -5.8, "" + peak);
    assertTrue(said.contains("Setting the level: trying -50 dB."), "starts quiet: " + said);
    String after = read(job);
    assertTrue(
        after.contains("{\"id\": \"before\", \"file\": \"before.wav\", \"setup\": \"bare\"}"),
        after);
    assertEquals(
        JOB.replaceAll("\\s", ""),
        after.replaceAll("\\{\"id\".*\"bare\"\\}", "").replaceAll("\\s", ""));
    assertTrue(levels.size() > 100, "the meter moves");
    assertThrows(Refusal.class, () -> record("before"), "not recorded twice in silence");
  }

  @Test
  void aDropoutIsRepaired() {
    system.cut(2.9, 64 / 48000.0).onlyInRun(FIRST_TAKE);
    CaptureRecorder.Recorded recorded = record("before");
    assertEquals(2, recorded.takes());
    assertTrue(findings.stream().anyMatch(f -> f.severity() == Finding.Severity.ERROR), "and told");
    assertFalse(recorded.check().refused());
  }

  @Test
  void dropoutsThatDoNotEndAreRefused() {
    system.cut(2.9, 64 / 48000.0);
    String why = refused().getMessage();
    assertTrue(why.contains("samples are missing"), why);
    assertEquals(3, system.runs(), "three takes");
  }

  @Test
  void aLossBetweenTheSweepsIsSeen() {
    // In the silence after the second sweep: no sweep is harmed, but one comes early.
    system.cut(0.03 + 0.3 + 0.5 + 2 * 1.5 - 0.2, 1 / 48000.0).onlyInRun(FIRST_TAKE);
    assertEquals(2, record("before").takes());
    assertEquals(FindingCode.PLAYBACK_INTERRUPTED, findings.get(0).code());
  }

  @Test
  void aBlockOfSilenceIsRepaired() {
    system.silence(3.0, 0.01).onlyInRun(FIRST_TAKE);
    assertEquals(2, record("before").takes());
  }

  @Test
  void aLatencyChangeIsRepaired() {
    system.latencyStep(3.7, 0.3).onlyInRun(FIRST_TAKE);
    assertEquals(2, record("before").takes());
  }

  @Test
  void aDriftOf100PpmIsMeasuredAndTold() {
    system.drift(100e-6);
    CaptureRecorder.Recorded recorded = record("before");
    // The time of a sweep's arrival is known to nanoseconds over 3 s.
    assertEquals(100e-6, recorded.check().clockOffset().orElseThrow(), 1e-8);
    assertTrue(findings.stream().anyMatch(f -> f.code() == FindingCode.TWO_CLOCKS));
  }

  @Test
  void clocksThatAreFartherApartThanCrystalsAreRefused() {
    system.drift(400e-6);
    assertTrue(refused().getMessage().contains("+400"), "ppm named");
  }

  @Test
  void automaticGainIsRefusedAtOnce() {
    var circuit = coil(1, 1e-4);
    double[] state = {0};
    gap = 1.5; // the gain takes its time to rise
    level = OptionalDouble.of(-12); // the quiet level that would be sought leaves it at rest
    system.wiring(
        (played, recorded) -> {
          circuit.pass(played, recorded);
          double now = Math.max(Math.abs(recorded[0]), Math.abs(recorded[1]));
          state[0] = now > state[0] ? state[0] + 0.02 * (now - state[0]) : 0.99995 * state[0];
          double gain = 0.3 / Math.max(state[0], 0.02);
          recorded[0] *= gain;
          recorded[1] *= gain;
        });
    Refusal refusal = refused();
    assertTrue(refusal.getMessage().contains("automatic gain"), refusal.getMessage());
    assertEquals(1, system.runs(), "no second take: it would be no better");
  }

  @Test
  void aDeviceThatIsPulledOutLeavesAReadableFile() {
    system.unplugAt(3).onlyInRun(FIRST_TAKE);
    SoundDeviceException lost = (SoundDeviceException) refused();
    assertTrue(lost.getMessage().contains("simulated in"), lost.getMessage());
    Recording saved = SoundFile.read(folder.resolve("before.unfinished.wav"));
    assertTrue(saved.seconds() > 2.9, "saved " + saved.seconds());
    assertEquals(1, record("before").takes());
    assertTrue(said.stream().anyMatch(s -> s.contains("before.saved-1.wav")), "offered: " + said);
    assertTrue(Files.exists(folder.resolve("before.saved-1.wav")));
  }

  @Test
  void aStopEndsItAndKeepsWhatThereIs() {
    LiveListener stopping =
        new LiveListener() {
          @Override
          public void levels(List<LevelMeter.Reading> shown, double doneShare) {
            if (doneShare > 0.5) {
              transport.stop();
            }
          }
        };
    JobRecording recording = JobRecording.open(job);
    assertThrows(
        StoppedException.class,
        () ->
            recording.record(
                new CaptureRecorder(bench(), transport, stopping),
                recording.want("before", Optional.empty(), List.of(), false),
                stimulus(gap),
                level));
    assertTrue(SoundFile.read(folder.resolve("before.unfinished.wav")).seconds() > 3);
    assertEquals(JOB, read(job));
  }

  @Test
  void silenceOnTheDeviceChannelIsRefused() {
    level = OptionalDouble.empty();
    system.wiring(
        (played, recorded) -> {
          recorded[0] = played;
          recorded[1] = 0;
        });
    String message = refused().getMessage();
    assertTrue(message.contains("does not arrive on recorded channel 2"), message);
    assertTrue(LevelMeter.decibel(system.loudest()) <= -6 + 0.01, "not even then louder");
  }

  @Test
  void aHotInputGetsAQuietSweep() {
    level = OptionalDouble.empty();
    system.wiring(coil(30, 1e-4));
    CaptureRecorder.Recorded recorded = record("before");
    assertTrue(recorded.level() < -30, "level " + recorded.level());
    assertFalse(levels.get(levels.size() - 1).get(1).clipped());
  }

  @Test
  void measuresUntilTheIntervalIsReached() {
    system.wiring(coil(1, 3e-4));
    JobRecording recording = JobRecording.open(job);
    MeasurementSeries series =
        new MeasurementSeries(
            recording, new CaptureRecorder(bench(), transport, listener), listener);
    MeasurementSeries.Outcome outcome =
        series.measure(
            recording.want("coil", Optional.empty(), List.of(), false),
            stimulus(gap),
            level,
            Optional.of(IntervalGoal.parse("inductance 5%")),
            3,
            false);
    FitResult.Row row =
        outcome.result().rows().stream()
            .filter(r -> r.key().text().endsWith("inductance"))
            .findFirst()
            .orElseThrow();
    Estimate inductance = row.estimate().orElseThrow();
    assertTrue(outcome.goalMet());
    assertTrue(inductance.low() <= 3 && 3 <= inductance.high(), inductance.toString());
  }
}
