package org.trebleproof.shelf.evening;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.function.Function;
import org.trebleproof.bench.FitJob;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.mod.guitar.ChainFile;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.identify.CoilIdentifier;
import org.trebleproof.bench.mod.identify.CoilIdentity;
import org.trebleproof.bench.mod.listen.CurvePair;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.bench.sweep.OpenCoil;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilCurve;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;

/**
 * One coil measured, from the job to what the shelf keeps. The same job gives the same answer on
 * whatever thread it is worked out.
 */
public final class CoilWork {

  private static final double USUAL_CELSIUS = 20;
  private static final String USUAL = "usual";

  /** In an order that is the same on every run: guitars are drawn part by part. */
  private static final Map<String, String> MARKED =
      new TreeMap<>(
          Map.of(
              "volume", "250k 0.001%",
              "tone", "250k 0.001%",
              "toneCapacitor", "22n 0.001%",
              "cable", "500p 0.001%",
              "input", "1M 0.001%"));

  /** A coil that no whole one explains is called broken from here on; else it is only refused. */
  private static final double SURELY = 0.8;

  /** A coil that fits well is called broken where that is likelier than not. */
  private static final double LIKELY = 0.5;

  private final String program;
  private final Function<FitResult, String> asJson;
  private final Function<FitResult, String> asSentence;

  /**
   * Work that is done the same way for every coil.
   *
   * @param program version of this program
   * @param asJson writes a result as result files hold it
   * @param asSentence says it in a sentence
   */
  public CoilWork(
      String program, Function<FitResult, String> asJson, Function<FitResult, String> asSentence) {
    this.program = program;
    this.asJson = asJson;
    this.asSentence = asSentence;
  }

  /** Measures a coil. */
  public CoilAnswer of(Job job, OptionalDouble celsius) {
    List<FittedParts> kept = new ArrayList<>();
    FitResult result = FitJob.keepingDoubted().run(job, kept::add);
    Optional<Finding> open =
        result.captures().stream()
            .flatMap(c -> OpenCoil.of(job, c.id(), c.setup(), c.measured()).stream())
            .findFirst();
    if (open.isPresent()) {
      return answer(
          result,
          CoilState.OPEN,
          "No current passes the coil: its wire, or the lead to it, is broken.",
          Map.of());
    }
    boolean stands = !kept.isEmpty() && result.verdict().stands();
    boolean bare =
        job.setups().values().stream().allMatch(s -> s.volume().isEmpty() && s.tone().isEmpty());
    if (kept.isEmpty() || !stands && !bare) {
      return answer(result, CoilState.REFUSED, asSentence.apply(result), values(job, result));
    }
    SignalChain guitar = SignalChain.of(kept.get(0), result.verdict().errors());
    String pickup = guitar.coils().keySet().iterator().next();
    SignalChain warm = celsius.isPresent() ? guitar.at(pickup, celsius.getAsDouble()) : guitar;
    CoilIdentity coil =
        new CoilIdentifier(warm, pickup, celsius(warm, pickup), Optional.empty())
            .identify(Optional.empty());
    if (!stands) {
      boolean broken = coil.shortedTurns() > SURELY;
      return answer(
          result,
          broken
              ? CoilState.SHORTED
              : result.verdict().refused() ? CoilState.REFUSED : CoilState.DOUBTED,
          broken ? shorted(coil) : asSentence.apply(result),
          broken ? Map.of() : values(job, result));
    }
    Map<CoilValue, Estimate> values = values(job, result);
    values.put(CoilValue.RESISTANCE_AT_20, coil.resistance());
    values.put(CoilValue.INDUCTANCE, coil.inductance());
    values.put(CoilValue.CAPACITANCE, coil.capacitance());
    coil.lossTime().ifPresent(e -> values.put(CoilValue.LOSS, e));
    boolean broken = coil.shortedTurns() > LIKELY;
    if (!coil.windings().isEmpty() && !broken) {
      values.put(CoilValue.TURNS, coil.windings().get(0).turns());
    }
    CurvePair.Curve curve = curve(warm, pickup);
    return new CoilAnswer(
        program,
        broken ? CoilState.SHORTED : CoilState.GOOD,
        broken ? shorted(coil) : asSentence.apply(result),
        values,
        Optional.of(new CoilCurve(curve.decibel(), curve.low(), curve.high())),
        asJson.apply(result),
        Optional.of(ChainFile.text(warm)));
  }

  /** In one guitar for all coils: its parts are just what they are marked with. */
  private static CurvePair.Curve curve(SignalChain guitar, String pickup) {
    SignalChain wired = guitar.with(USUAL, Layout.bare(pickup), MARKED);
    return CurvePair.Curve.of(USUAL, wired, wired.layouts().get(USUAL));
  }

  private static double celsius(SignalChain guitar, String pickup) {
    return guitar.celsius().getOrDefault(pickup, USUAL_CELSIUS);
  }

  private static String shorted(CoilIdentity coil) {
    String share =
        coil.shortedShare()
            .map(
                s ->
                    String.format(
                        Locale.ROOT,
                        ", about %.0f %% of them (%.0f to %.0f %%)",
                        100 * s.value(),
                        100 * s.low(),
                        100 * s.high()))
            .orElse("");
    return "Broken: turns are shorted among themselves" + share + "; it has to be rewound.";
  }

  /** What the setup with the coil alone shows, else the first one. */
  private static Map<CoilValue, Estimate> values(Job job, FitResult result) {
    Setup setup =
        job.setups().values().stream()
            .filter(s -> s.volume().isEmpty() && s.tone().isEmpty())
            .findFirst()
            .orElseGet(() -> job.setups().values().iterator().next());
    Map<CoilValue, Estimate> values = new EnumMap<>(CoilValue.class);
    put(
        values,
        CoilValue.INDUCTANCE,
        result.rows().coil(setup.pickup()).estimate(Quantity.INDUCTANCE));
    put(
        values,
        CoilValue.CAPACITANCE,
        result.rows().coil(setup.pickup()).estimate(Quantity.CAPACITANCE));
    put(
        values,
        CoilValue.RESONANCE,
        result.rows().setup(setup.name()).estimate(Quantity.RESONANCE));
    put(
        values,
        CoilValue.PEAK,
        result.rows().setup(setup.name()).estimate(Quantity.RESONANCE_PEAK));
    put(
        values,
        CoilValue.QUALITY,
        result.rows().setup(setup.name()).estimate(Quantity.QUALITY_FACTOR));
    return values;
  }

  private static void put(
      Map<CoilValue, Estimate> values, CoilValue key, Optional<Estimate> estimate) {
    estimate.ifPresent(e -> values.put(key, e));
  }

  private CoilAnswer answer(
      FitResult result, CoilState state, String reason, Map<CoilValue, Estimate> values) {
    return new CoilAnswer(
        program, state, reason, values, Optional.empty(), asJson.apply(result), Optional.empty());
  }
}
