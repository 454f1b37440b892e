package org.trebleproof.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.audio.device.CircuitWiring;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.PlayedSound;
import org.trebleproof.audio.device.RecordedSound;
import org.trebleproof.audio.device.SimulatedSoundSystem;
import org.trebleproof.audio.device.Transport;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Refusal;

/**
 * A coil of known values recorded on one channel by a recorder with its own clock, latency and
 * response.
 */
final class OneChannelTest {

  private static final int RATE = 48000;
  private static final double INDUCTANCE = 3;
  private static final double RESISTANCE = 7000;

  @TempDir Path folder;

  private final Stimulus stimulus =
      new Stimulus(RATE, WavWriter.Encoding.PCM24, 1, 20, 20000, 3, 0.5, -12, false);

  /** The interface: gain 0.7, a coupling capacitor at 12 Hz, a little less treble. */
  private static SimulatedSoundSystem.Wiring behindInterface(SimulatedSoundSystem.Wiring inner) {
    double[] state = new double[3];
    double[] pair = new double[2];
    double pole = Math.exp(-2 * Math.PI * 12 / RATE);
    return (played, recorded) -> {
      inner.pass(played, pair);
      double x = 0.7 * pair[1];
      double high = pole * state[0] + (1 + pole) / 2 * (x - state[1]);
      state[0] = high;
      state[1] = x;
      // A tenth of the sample before: -1.8 dB at half the sample rate.
      recorded[0] = 0.9 * high + 0.1 * state[2];
      state[2] = high;
      recorded[1] = recorded[0];
    };
  }

  private void record(String name, SimulatedSoundSystem system) {
    RecordedSound heard = new RecordedSound();
    DeviceFormat format = new DeviceFormat(RATE, 24, 2);
    new Transport(system)
        .run(
            new Transport.Route(system.playback(), format),
            PlayedSound.of(new float[][] {stimulus.samples()}, 0),
            new Transport.Route(system.recording(), format),
            0.6,
            heard);
    WavWriter.write(
        folder.resolve(name), new float[][] {heard.channel(0)}, RATE, WavWriter.Encoding.PCM24);
  }

  private FitResult fit(String kind, double drift, boolean loopback) throws IOException {
    stimulus.write(folder.resolve("stimulus.wav"));
    var circuit =
        new CircuitWiring(
            kind.equals("series")
                ? CircuitWiring.coil(100e3, RESISTANCE, INDUCTANCE, 180e-12, 1e6)
                : OneChannelTest::induced,
            RATE,
            2e-5);
    record(
        "coil.wav",
        new SimulatedSoundSystem().latency(0.0431).drift(drift).wiring(behindInterface(circuit)));
    var noise = new CircuitWiring(hz -> new double[] {1, 0}, RATE, 2e-5);
    record(
        "loop.wav",
        new SimulatedSoundSystem()
            .latency(0.0718)
            .drift(drift + 1e-6)
            .wiring(behindInterface(noise)));
    Path job = folder.resolve("job.json");
    Files.writeString(
        job,
        """
        {
          "trebleproof": 1,
          "fixture": {"kind": KIND, "sweep": "stimulus.wav",
            LOOP "input": {"resistance": "1M 1%", "capacitance": "80p 3%"}},
          "parts": {"coil": {"kind": "pickup", "resistance": "7k 1%"}},
          "setups": {"bare": {"pickup": "coil"}},
          "captures": [{"id": "coil", "file": "coil.wav", "setup": "bare"}]
        }
        """
            .replace(
                "KIND",
                kind.equals("series")
                    ? "\"series\", \"seriesResistance\": \"100k 0.1%\""
                    : "\"exciter\"")
            .replace("LOOP", loopback ? "\"loopback\": \"loop.wav\"," : ""));
    return new FitJob().run(JobReader.read(job));
  }

  /**
   * Jack over induced voltage, which rises with frequency; the recorder's input across the jack.
   */
  private static double[] induced(double hz) {
    double w = 2 * Math.PI * hz;
    double re = 1 + RESISTANCE / 1e6 - w * w * INDUCTANCE * 180e-12;
    double im = w * (RESISTANCE * 180e-12 + INDUCTANCE / 1e6);
    double size = re * re + im * im;
    double gain = hz / 30000;
    return new double[] {gain * im / size, gain * re / size};
  }

  private static Estimate row(FitResult result, String key) {
    return result.rows().stream()
        .filter(r -> r.key().text().equals(key))
        .findFirst()
        .flatMap(FitResult.Row::estimate)
        .orElseThrow(() -> new AssertionError(key + ": " + result.findings()));
  }

  private static void assertHolds(Estimate e, double truth) {
    assertTrue(e.low() <= truth && truth <= e.high(), truth + " is not within " + e);
  }

  private static List<String> codes(FitResult result) {
    return result.findings().stream().map(f -> f.code().key()).toList();
  }

  /** Unloaded: 100 pF and no input. */
  private static final double RESONANCE =
      Math.sqrt(1 / (INDUCTANCE * 100e-12) - Math.pow(RESISTANCE / INDUCTANCE, 2)) / (2 * Math.PI);

  @Test
  void withALoopbackCoilAndResonanceComeBack() throws IOException {
    FitResult result = fit("series", 120e-6, true);
    assertTrue(codes(result).contains("one-channel"), codes(result).toString());
    Estimate inductance = row(result, "pickup.inductance");
    assertHolds(inductance, INDUCTANCE);
    // The gain is known to 1 %, and the inductance follows it.
    assertEquals(INDUCTANCE, inductance.value(), 0.015 * INDUCTANCE);
    assertHolds(row(result, "pickup.resistance"), RESISTANCE);
    assertHolds(row(result, "bare.resonance"), RESONANCE);
  }

  @Test
  void withoutALoopbackItSaysWhatThatCosts() throws IOException {
    FitResult with = fit("exciter", -150e-6, true);
    FitResult without = fit("exciter", -150e-6, false);
    assertTrue(codes(without).contains("no-loopback"), codes(without).toString());
    Estimate narrow = row(with, "bare.resonance");
    Estimate wide = row(without, "bare.resonance");
    assertHolds(narrow, RESONANCE);
    assertHolds(wide, RESONANCE);
    assertTrue(wide.high() - wide.low() > 2 * (narrow.high() - narrow.low()));
  }

  @Test
  void aSeriesResistorWithoutALoopbackIsRefused() {
    Refusal refusal = assertThrows(Refusal.class, () -> fit("series", 0, false));
    assertTrue(refusal.getMessage().contains("loopback"), refusal.getMessage());
  }

  @Test
  void clocksTooFarApartAreRefused() throws IOException {
    FitResult result = fit("exciter", 350e-6, true);
    assertTrue(result.verdict().refused());
    assertTrue(codes(result).contains("clock-uneven"), codes(result).toString());
  }
}
