package org.trebleproof.report;

import static org.trebleproof.quantity.RowKeys.key;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.FitResult.Row;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Unit;
import org.trebleproof.quantity.Verdict;

/**
 * Results with invented numbers, shaped as a fit returns them. The curves come from the
 * second-order low-pass of any circuits text: H = 1 / (1 + (R + sL)(1/R_L + sC)).
 */
public final class ExampleResults {

  private static final double INDUCTANCE = 2.401;
  private static final double RESISTANCE = 5702;
  private static final double CAPACITANCE = 680e-12;
  private static final double LOAD_BEFORE = 110.9e3;
  private static final double LOAD_AFTER = 147.4e3;

  private ExampleResults() {}

  /** A pot swap by exciter, with a clipped capacitor. */
  public static FitResult potSwap() {
    return FitResult.of(
            potSwapJob(),
            new Verdict(
                List.of(
                    Finding.of(
                        FindingCode.CALIBRATION_STALE,
                        "The calibration of the recorder in bench.json is more than a year old.",
                        "measured 2025-01-04, today 2026-11-25",
                        "Measure the calibration again."),
                    Finding.of(
                        FindingCode.TOLERANCE_ASSUMED,
                        "No tolerance is stated for 1 value, so the usual one is assumed.",
                        "tone cap",
                        "State tolerances where you know them, such as \"250k 10%\"."))))
        .withModel(
            Optional.of(
                new FitResult.ModelChoice(
                    "solid core",
                    1.04,
                    List.of(
                        new FitResult.ModelChoice.Alternative("split inductance", 12.6),
                        new FitResult.ModelChoice.Alternative("loss resistor", 812.4)))))
        .withRows(potSwapRows())
        .withDifferences(List.of(difference()))
        .withCaptures(
            List.of(
                capture("before", "before", LOAD_BEFORE, 0, 1),
                capture("before clipped", "before", LOAD_BEFORE, 1e-9, 2),
                capture("after", "after", LOAD_AFTER, 0, 3)))
        .withSetupCurves(
            List.of(setupCurve("before", LOAD_BEFORE), setupCurve("after", LOAD_AFTER)))
        .withTreble(List.of(loss("before", 4.2, 3.1, 1.1, 8.4), loss("after", 2.6, 2.7, 1.2, 6.5)))
        .withAdvice(
            List.of(
                new FitResult.Advice(
                    FitResult.Advice.About.PARTS,
                    "Clip 1 nF (1 %) across the jack in setup \"before\" and sweep again.",
                    key("pickup.capacitance"),
                    0.42,
                    0.02)));
  }

  /** An unlabelled coil through a series resistor. */
  public static FitResult bareCoil() {
    Job job =
        new Job(
            "Unlabelled coil",
            Path.of("coil/job.json"),
            new Fixture.Series(
                new Marking(100e3, 0.001, true),
                Optional.of(
                    new Fixture.ChannelMatch(new Marking(1.0021, 0.0005, true), 0, 0.02e-6)),
                1,
                2,
                input()),
            OptionalDouble.empty(),
            Map.of("pickup", new Part("pickup", Part.Kind.PICKUP, Optional.empty())),
            Map.of("bare", bareSetup()),
            List.of(new CaptureEntry("bare", Path.of("coil/coil.wav"), "bare", List.of())),
            List.of());
    return FitResult.of(job, Verdict.CLEAR)
        .withModel(Optional.of(new FitResult.ModelChoice("loss resistor", 0.98, List.of())))
        .withRows(
            rows(
                row("pickup.inductance", 4.812, 0.0006, Unit.HENRY, Known.MEASURED),
                row("pickup.resistance", 8214, 0.0006, Unit.OHM, Known.MEASURED),
                row("pickup.capacitance", 131e-12, 0.013, Unit.FARAD, Known.MEASURED),
                row("bare.resonance", 6340, 0.007, Unit.HERTZ, Known.DERIVED),
                row("bare.resonancePeak", 18.2, 0.004, Unit.DECIBEL, Known.DERIVED),
                row("bare.seriesInductance.100Hz", 4.81, 0.002, Unit.HENRY, Known.MEASURED),
                row("bare.seriesInductance.1000Hz", 4.93, 0.0005, Unit.HENRY, Known.MEASURED),
                row("bare.seriesResistance.1000Hz", 9120, 0.001, Unit.OHM, Known.MEASURED),
                row("bare.seriesQ.1000Hz", 3.397, 0.001, Unit.RATIO, Known.MEASURED)))
        .withCaptures(List.of(capture("bare", "bare", 500e3, 0, 4)))
        .withSetupCurves(List.of(setupCurve("bare", 500e3)));
  }

  /** A pot swap of which the second capture was spoiled, and the whole job with it. */
  public static FitResult refused() {
    FitResult good = potSwap();
    return FitResult.of(
            good.job(),
            new Verdict(
                List.of(
                    Finding.of(
                            FindingCode.CLIPPING,
                            "Capture \"after\": the device channel is clipped.",
                            "0.34 % of its samples sit at 0.9999 of full scale",
                            "Turn the input gain or the sweep down and record it again.")
                        .in("after"))))
        .withRows(good.rows().withdrawn(key -> true))
        .withCaptures(List.of(good.captures().get(0)));
  }

  private static Job potSwapJob() {
    Map<String, Part> parts = new LinkedHashMap<>();
    part(parts, "pickup", Part.Kind.PICKUP, 5700, 0.01, true);
    part(parts, "old volume", Part.Kind.POT, 250e3, 0.2, false);
    part(parts, "new volume", Part.Kind.POT, 500e3, 0.2, false);
    part(parts, "tone pot", Part.Kind.POT, 250e3, 0.2, false);
    part(parts, "tone cap", Part.Kind.CAPACITOR, 22e-9, 0.1, false);
    part(parts, "lead", Part.Kind.CABLE, 480e-12, 0.1, true);
    part(parts, "clip", Part.Kind.CAPACITOR, 1e-9, 0.01, true);
    Map<String, Setup> setups = new LinkedHashMap<>();
    setups.put("before", setup("before", "old volume"));
    setups.put("after", setup("after", "new volume"));
    return new Job(
        "School-band baritone: volume pot 250k to 500k",
        Path.of("swap/job.json"),
        new Fixture.Exciter(false, Optional.empty(), 1, 2, input()),
        OptionalDouble.of(50),
        parts,
        setups,
        List.of(
            new CaptureEntry("before", Path.of("swap/before.wav"), "before", List.of()),
            new CaptureEntry(
                "before clipped", Path.of("swap/before-1n.wav"), "before", List.of("clip")),
            new CaptureEntry("after", Path.of("swap/after.wav"), "after", List.of())),
        List.of());
  }

  private static Fixture.InputLoad input() {
    return new Fixture.InputLoad(
        new Marking(1e6, 0.01, true), new Marking(80e-12, 0.03, true), true);
  }

  private static void part(
      Map<String, Part> parts,
      String name,
      Part.Kind kind,
      double value,
      double tolerance,
      boolean stated) {
    parts.put(name, new Part(name, kind, Optional.of(new Marking(value, tolerance, stated))));
  }

  private static Setup setup(String name, String volume) {
    return new Setup(
        name,
        "pickup",
        Optional.of(new Setup.PotUse(volume, 1, 0.5)),
        Optional.of(new Setup.PotUse("tone pot", 1, 0.5)),
        Optional.of("tone cap"),
        false,
        Optional.of("lead"),
        Optional.empty());
  }

  private static Setup bareSetup() {
    return new Setup(
        "bare",
        "pickup",
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        false,
        Optional.empty(),
        Optional.empty());
  }

  private static Rows potSwapRows() {
    return rows(
        row("change.loadConductance", -2.23e-6, 0.009, Unit.SIEMENS, Known.MEASURED),
        row("pickup.inductance", INDUCTANCE, 0.0066, Unit.HENRY, Known.MEASURED),
        row("pickup.resistance", RESISTANCE, 0.007, Unit.OHM, Known.MEASURED),
        row("pickup.capacitance", 120e-12, 0.42, Unit.FARAD, Known.ASSUMED),
        row("before.resonance", 3564.9, 0.0002, Unit.HERTZ, Known.MEASURED),
        row("before.resonancePeak", 3.896, 0.0018, Unit.DECIBEL, Known.MEASURED),
        row("before.loadResistance", LOAD_BEFORE, 0.007, Unit.OHM, Known.MEASURED),
        row("before.totalCapacitance", CAPACITANCE, 0.007, Unit.FARAD, Known.MEASURED),
        row("after.resonance", 3719.2, 0.0002, Unit.HERTZ, Known.MEASURED),
        row("after.resonancePeak", 5.604, 0.0018, Unit.DECIBEL, Known.MEASURED),
        row("after.loadResistance", LOAD_AFTER, 0.007, Unit.OHM, Known.MEASURED),
        row("after.totalCapacitance", CAPACITANCE, 0.007, Unit.FARAD, Known.MEASURED),
        row("old volume.value", 238e3, 0.059, Unit.OHM, Known.MEASURED),
        row("new volume.value", 481e3, 0.12, Unit.OHM, Known.ASSUMED),
        row("tone pot.value", 251e3, 0.19, Unit.OHM, Known.ASSUMED));
  }

  static Row row(String key, double value, double relative, Unit unit, Known known) {
    double half = Math.abs(value) * relative;
    return new Row(key(key, unit), new Estimate(value, value - half, value + half, unit, known));
  }

  public static Rows rows(Row... rows) {
    return new Rows(List.of(rows));
  }

  private static FitResult.DifferenceCurve difference() {
    double[] hz = grid();
    double[] decibel = new double[hz.length];
    double[] low = new double[hz.length];
    double[] high = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      decibel[i] = level(transfer(hz[i], LOAD_AFTER, 0)) - level(transfer(hz[i], LOAD_BEFORE, 0));
      double half = 0.01 + 0.03 * Math.abs(decibel[i]);
      low[i] = decibel[i] - half;
      high[i] = decibel[i] + half;
    }
    return new FitResult.DifferenceCurve("before", "after", hz, decibel, low, high, true);
  }

  private static FitResult.SetupCurve setupCurve(String name, double load) {
    double[] hz = grid();
    double[] decibel = new double[hz.length];
    double[] low = new double[hz.length];
    double[] high = new double[hz.length];
    double[] phase = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      double[] value = transfer(hz[i], load, 0);
      decibel[i] = level(value);
      low[i] = decibel[i] - 0.04;
      high[i] = decibel[i] + 0.04;
      phase[i] = Math.toDegrees(Math.atan2(value[1], value[0]));
    }
    return new FitResult.SetupCurve(name, hz, decibel, low, high, phase);
  }

  private static FitResult.CaptureFit capture(
      String id, String setup, double load, double extra, long seed) {
    Random random = new Random(seed);
    double[] hz = grid();
    int n = hz.length;
    double[] re = new double[n];
    double[] im = new double[n];
    double[] modelRe = new double[n];
    double[] modelIm = new double[n];
    double[] sd = new double[n];
    double[] residualRe = new double[n];
    double[] residualIm = new double[n];
    for (int i = 0; i < n; i++) {
      double[] value = transfer(hz[i], load, extra);
      sd[i] = 0.004 * Math.hypot(value[0], value[1]) + 2e-4 * hz[i] / 1000;
      residualRe[i] = random.nextGaussian();
      residualIm[i] = random.nextGaussian();
      modelRe[i] = value[0];
      modelIm[i] = value[1];
      re[i] = value[0] + sd[i] * residualRe[i];
      im[i] = value[1] + sd[i] * residualIm[i];
    }
    return new FitResult.CaptureFit(
        id,
        setup,
        "device over reference channel",
        new Response(hz, re, im, sd),
        Optional.of(new Response(hz, modelRe, modelIm, new double[n])),
        residualRe,
        residualIm,
        new double[] {-71, -78, -90, -93},
        "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08",
        48000,
        24,
        4);
  }

  private static TrebleLoss loss(String setup, double pots, double lead, double input, double all) {
    return new TrebleLoss(
        setup,
        "the pickup without pots on a 2 m lead into 1M",
        3162,
        List.of(share("volume pot", pots), share("lead", lead), share("recorder input", input)),
        taken(all),
        taken(all / 4));
  }

  private static TrebleLoss.Share share(String cause, double loss) {
    return new TrebleLoss.Share(cause, cause, taken(loss), taken(loss / 4));
  }

  private static Estimate taken(double loss) {
    return new Estimate(loss, loss - 0.1, loss + 0.1, Unit.DECIBEL, Known.DERIVED);
  }

  private static double[] grid() {
    double[] hz = new double[200];
    for (int i = 0; i < hz.length; i++) {
      hz[i] = 40 * Math.pow(15000.0 / 40, i / (hz.length - 1.0));
    }
    return hz;
  }

  private static double[] transfer(double hz, double load, double extraCapacitance) {
    double w = 2 * Math.PI * hz;
    double g = 1 / load;
    double b = w * (CAPACITANCE + extraCapacitance);
    double x = w * INDUCTANCE;
    double re = 1 + RESISTANCE * g - x * b;
    double im = RESISTANCE * b + x * g;
    double square = re * re + im * im;
    return new double[] {re / square, -im / square};
  }

  private static double level(double[] value) {
    return 20 * Math.log10(Math.hypot(value[0], value[1]));
  }
}
