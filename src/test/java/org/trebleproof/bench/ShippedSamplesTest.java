package org.trebleproof.bench;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;

/**
 * The shipped samples against their truths. They were made with ngspice and an independent
 * simulation of the recorder; the truth files beside them hold what went in.
 */
class ShippedSamplesTest {

  private static final Path SAMPLES = Path.of("sample-captures");

  /** Each sample is run once for all tests: a run reads and fits several sound files. */
  private static final Map<String, FitResult> RESULTS = new HashMap<>();

  static synchronized FitResult result(String sample) {
    return RESULTS.computeIfAbsent(sample, ShippedSamplesTest::run);
  }

  private static FitResult run(String sample) {
    return new FitJob().run(JobReader.read(SAMPLES.resolve(sample).resolve("job.json")));
  }

  private static JsonNode truth(String sample) {
    try {
      return new ObjectMapper().readTree(SAMPLES.resolve(sample).resolve("truth.json").toFile());
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"unlabelled-coil", "pot-swap", "swap-at-jack", "treble-complaint"})
  void intervalsHoldTheTruthAndAreNoWiderThanNeeded(String sample) {
    FitResult result = result(sample);
    assertEquals(
        List.of(),
        result.findings().stream().filter(f -> f.severity() == Finding.Severity.ERROR).toList());
    Map<String, Estimate> rows = rows(result);
    List<String> missed = new ArrayList<>();
    truth(sample)
        .get("estimates")
        .fields()
        .forEachRemaining(
            e -> {
              Estimate row = rows.get(e.getKey());
              assertTrue(row != null, e.getKey() + " is not given");
              double truth = e.getValue().asDouble();
              assertEquals(truth, row.value(), 2 * row.halfWidth(), e.getKey() + " " + row);
              if (!row.contains(truth)) {
                missed.add(e.getKey());
              }
              assertTrue(row.halfWidth() <= widest(e.getKey(), row), e.getKey() + " " + row);
            });
    // one row in twenty may miss by up to one further half-width
    assertTrue(missed.size() <= 1, "outside their intervals: " + missed);
  }

  /**
   * Sensible half-widths. Frequencies and levels come straight from clean sweeps; a load is known
   * to the markings' and the channels' tolerances of a per cent or less; single pots and the
   * winding's capacitance rest on markings of 10 to 20 %.
   */
  private static double widest(String key, Estimate row) {
    double value = Math.abs(row.value());
    if (key.equals("bare.resonance")) {
      // 3 % of 92 pF of input are 2.4 % of the winding's 116 pF, which goes by its square root
      return 0.014 * value;
    }
    if (key.endsWith(".resonance")) {
      return 3e-3 * value;
    }
    if (key.endsWith(".resonancePeak")) {
      return 0.15;
    }
    if (key.equals("change.loadConductance")) {
      return Math.max(0.02 * value, 5e-8);
    }
    if (key.endsWith(".loadResistance") || key.endsWith(".totalCapacitance")) {
      return 0.03 * value;
    }
    if (key.endsWith(".inductance") || key.endsWith(".resistance")) {
      return 0.03 * value;
    }
    return key.endsWith(".capacitance") ? 0.5 * value : 0.22 * value;
  }

  private static Map<String, Estimate> rows(FitResult result) {
    Map<String, Estimate> rows = new HashMap<>();
    for (FitResult.Row row : result.rows()) {
      rows.put(row.key().text(), row.estimate().orElseThrow());
    }
    return rows;
  }

  @ParameterizedTest
  @ValueSource(strings = {"pot-swap", "swap-at-jack", "treble-complaint"})
  void theDifferenceCurveHoldsTheTruth(String sample) {
    FitResult.DifferenceCurve curve = result(sample).difference().orElseThrow();
    JsonNode truth = truth(sample).get("difference");
    int outside = 0;
    for (int i = 0; i < truth.get("hz").size(); i++) {
      double hz = truth.get("hz").get(i).asDouble();
      double level = truth.get("dB").get(i).asDouble();
      int k = 0;
      while (k < curve.hz().length - 2 && curve.hz()[k + 1] < hz) {
        k++;
      }
      double t = Math.log(hz / curve.hz()[k]) / Math.log(curve.hz()[k + 1] / curve.hz()[k]);
      double given = curve.decibel()[k] * (1 - t) + curve.decibel()[k + 1] * t;
      double half = (curve.high()[k] - curve.low()[k]) / 2;
      // 0.002 dB for reading between points of a 96th of an octave
      assertEquals(level, given, 2 * half + 0.002, "at " + hz + " Hz");
      assertTrue(half < 0.1, "half-width " + half + " dB at " + hz + " Hz");
      outside += Math.abs(level - given) > half + 0.002 ? 1 : 0;
    }
    // neighbouring points err together
    assertTrue(outside <= truth.get("hz").size() / 4, outside + " points outside the band");
  }

  @Test
  void theCoilFreeAndTheModelledChangeOfThePotSwapAgree() {
    FitResult result = result("pot-swap");
    Map<String, Estimate> rows = rows(result);
    Estimate free = rows.get("change.loadConductance");
    Estimate before = rows.get("before.loadResistance");
    Estimate after = rows.get("after.loadResistance");
    // loads are quoted each at its own resonance, where the tone branch differs by a trace
    double modelled = 1 / after.value() - 1 / before.value();
    assertEquals(free.value(), modelled, free.halfWidth() + 0.005 * Math.abs(free.value()));
    assertEquals(Known.MEASURED, free.known());
    assertTrue(result.findings().stream().noneMatch(f -> f.code() == FindingCode.MODEL_DISAGREES));
  }

  @Test
  void theUnlabelledCoilsReadingsAreThoseOfItsNetlist() {
    // Z of the netlist coil.cir without its input, by the ladder formula written there: R, air
    // part, 40 links of L parallel R, and the winding capacitance across all of it.
    Map<String, Estimate> rows = rows(result("unlabelled-coil"));
    for (double hz : new double[] {100, 120, 1000, 10000}) {
      double[] z = unlabelledCoil(hz);
      String at = "." + Math.round(hz) + "Hz";
      Estimate l = rows.get("bare.seriesInductance" + at);
      Estimate r = rows.get("bare.seriesResistance" + at);
      assertEquals(z[1] / (2 * Math.PI * hz), l.value(), 1.5 * l.halfWidth(), "L" + at + l);
      assertEquals(z[0], r.value(), 1.5 * r.halfWidth(), "R" + at + r);
    }
  }

  /** First values and the rule of the ladder in coil.cir: L_n falls with the zeros of J0. */
  private static double[] unlabelledCoil(double hz) {
    double w = 2 * Math.PI * hz;
    List<String> lines;
    try {
      lines =
          java.nio.file.Files.readAllLines(SAMPLES.resolve("unlabelled-coil").resolve("coil.cir"));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
    Map<String, Double> part = new HashMap<>();
    for (String line : lines) {
      String[] words = line.split(" ");
      if (words.length == 4 && line.matches("[RLC].*")) {
        part.put(words[0], Double.parseDouble(words[3]));
      }
    }
    double re = part.get("Rwire");
    double im = w * part.get("Lair");
    for (int n = 0; part.containsKey("Lc" + n); n++) {
      double x = w * part.get("Lc" + n);
      double r = part.get("Rc" + n);
      re += r * x * x / (r * r + x * x);
      im += r * r * x / (r * r + x * x);
    }
    double power = re * re + im * im;
    double g = re / power;
    double b = -im / power + w * part.get("Cwinding");
    return new double[] {g / (g * g + b * b), -b / (g * g + b * b)};
  }

  @Test
  void twoRunsGiveTheSameNumbers() {
    FitResult first = result("unlabelled-coil");
    FitResult second = run("unlabelled-coil");
    assertEquals(first.rows(), second.rows());
    assertEquals(first.findings(), second.findings());
    assertEquals(first.model(), second.model());
    assertEquals(Optional.empty(), second.difference());
  }

  @Test
  void aSetupThatNobodyCapturedIsToldAndCostsNothing() {
    Job job = JobReader.read(SAMPLES.resolve("unlabelled-coil").resolve("job.json"));
    Map<String, Part> parts = new java.util.LinkedHashMap<>(job.parts());
    parts.put("neck", new Part("neck", Part.Kind.PICKUP, Optional.empty()));
    Map<String, Setup> setups = new java.util.LinkedHashMap<>(job.setups());
    setups.put(
        "spare",
        new Setup(
            "spare",
            "neck",
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            false,
            Optional.empty(),
            Optional.empty()));
    FitResult result = new FitJob().run(job.withParts(parts).withSetups(setups));
    assertTrue(
        result.findings().stream().anyMatch(f -> f.code() == FindingCode.SETUP_NOT_CAPTURED));
    assertEquals(
        2.618,
        rows(result).get("pickup.inductance").value(),
        0.02 * 2.618,
        "truth.json of the coil");
  }
}
