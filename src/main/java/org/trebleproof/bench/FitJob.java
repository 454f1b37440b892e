package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletionException;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.SweepObservation;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Unit;

/** Fits coil and load to all captures of a job together. */
public final class FitJob {

  private static final int CURVE_POINTS_PER_OCTAVE = 24;
  private static final int DIFFERENCE_POINTS_PER_OCTAVE = 96;

  /** Runs the job: reads, measures, checks, fits, and says what follows. */
  public FitResult run(Job job) {
    List<CaptureReading> readings = read(job);
    List<Finding> findings = new ArrayList<>(job.notes());
    readings.forEach(r -> findings.addAll(r.findings()));
    Map<String, Response> measured = new LinkedHashMap<>();
    for (CaptureReading r : readings) {
      if (r.usable()) {
        measured.put(r.entry().id(), r.measured());
      }
    }
    boolean refused =
        readings.stream().anyMatch(r -> !r.usable())
            || findings.stream().anyMatch(f -> f.severity() == Finding.Severity.ERROR);
    if (refused) {
      return refusal(job, readings, findings);
    }
    return fitted(job, readings, measured, findings);
  }

  private static List<CaptureReading> read(Job job) {
    try {
      return job.captures().parallelStream().map(c -> CaptureReading.read(job, c)).toList();
    } catch (CompletionException e) {
      if (e.getCause() instanceof RuntimeException cause) {
        throw cause;
      }
      throw e;
    }
  }

  private static FitResult refusal(Job job, List<CaptureReading> readings, List<Finding> findings) {
    return new FitResult(
        job,
        Optional.empty(),
        List.of(),
        Optional.empty(),
        gravestFirst(findings),
        readings.stream().map(r -> captureFit(r, Optional.empty(), new double[0])).toList(),
        List.of(),
        List.of(),
        List.of());
  }

  private static List<Finding> gravestFirst(List<Finding> findings) {
    return findings.stream().sorted(Comparator.comparing(Finding::severity).reversed()).toList();
  }

  private static FitResult fitted(
      Job job,
      List<CaptureReading> readings,
      Map<String, Response> measured,
      List<Finding> findings) {
    FittedModels models = FittedModels.of(new CoilLadder(job, measured));
    Candidate best = models.chosen();
    List<EstimateTable> tables = models.tables();
    List<Candidate> candidates = models.candidates();
    Discrepancy discrepancy = models.discrepancy();
    Map<String, EstimateTable.Line> lines = models.lines();
    List<FitResult.Row> rows = new ArrayList<>();
    JobModel model = best.model();
    Posterior posterior = models.best().posterior();
    List<Setup> setups = List.copyOf(job.setups().values());
    Optional<FitResult.DifferenceCurve> difference = Optional.empty();
    if (setups.size() == 2) {
      double at = models.best().loadFrequency(setups.get(0).name());
      Optional<CoilFreeChange> free = CoilFreeChange.of(model, best.solution().x(), measured, at);
      difference =
          Optional.of(
              ModelCurves.difference(
                  model,
                  posterior,
                  setups.get(0),
                  setups.get(1),
                  ModelCurves.grid(20, 20000, DIFFERENCE_POINTS_PER_OCTAVE)));
      free.ifPresent(
          f ->
              rows.add(
                  new FitResult.Row(
                      "change.loadConductance",
                      Unit.SIEMENS,
                      Optional.of(
                          Estimate.normal(
                              f.conductance(), f.conductanceSd(), Unit.SIEMENS, Known.MEASURED)))));
    }
    lines.forEach(
        (key, line) -> rows.add(new FitResult.Row(key, line.unit(), Optional.of(line.estimate()))));
    if (job.fixture() instanceof Fixture.Series) {
      for (Setup setup : setups) {
        job.captures().stream()
            .filter(c -> c.setup().equals(setup.name()) && c.across().isEmpty())
            .findFirst()
            .ifPresent(
                c ->
                    MeterReadings.of(model, setup, measured.get(c.id()))
                        .forEach(
                            (key, e) ->
                                rows.add(new FitResult.Row(key, e.unit(), Optional.of(e)))));
      }
    }
    List<FitResult.CaptureFit> fits = new ArrayList<>();
    int row = 0;
    double[] residual = best.solution().residual();
    for (CaptureReading r : readings) {
      SweepObservation o = model.observations().get(r.entry().id());
      double[] own = java.util.Arrays.copyOfRange(residual, row, row + 2 * o.points());
      row += 2 * o.points();
      fits.add(
          captureFit(r, Optional.of(o.modelled(best.solution().x(), model.parameters())), own));
    }
    double criterion = best.criterion();
    FitResult.ModelChoice choice =
        new FitResult.ModelChoice(
            best.model().coil().label(),
            best.reducedChiSquare(),
            candidates.stream()
                .skip(1)
                .map(
                    c ->
                        new FitResult.ModelChoice.Alternative(
                            c.model().coil().label(), c.criterion() - criterion))
                .toList());
    double[] grid = ModelCurves.grid(20, 20000, CURVE_POINTS_PER_OCTAVE);
    if (System.getProperty("debug.fit") != null) {
      System.err.printf(
          "%s chi %.3f floor %.2e lag %.2f infl %.1f%n",
          choice.name(),
          choice.reducedChiSquare(),
          discrepancy.floor(),
          discrepancy.structure().lagOne(),
          discrepancy.structure().inflation());
      for (int i = 0; i < models.weights().length; i++) {
        var t = models.tables().get(i);
        double a = 0;
        for (var p : t.model().parameters()) {
          if (p.name().contains("departure")) {
            a = p.priorSd();
          }
        }
        System.err.printf("   w %.3f %s a=%.1e", models.weights()[i], t.model().coil().label(), a);
        t.lines()
            .forEach(
                (k, l) -> {
                  if (k.equals("before.loadResistance") || k.equals("pickup.inductance"))
                    System.err.printf(" %s %.5g +-%.2f%%", k, l.value(), l.sd() * 196);
                });
        System.err.println();
      }
      for (Candidate c : candidates) {
        System.err.printf(
            "   %s crit %.1f chi %.2f n %d evals %d %s%n",
            c.model().coil().label(),
            c.criterion(),
            c.reducedChiSquare(),
            c.points(),
            c.solution().evaluations(),
            c.solution().stop());
      }
    }
    return new FitResult(
        job,
        Optional.of(choice),
        rows,
        difference,
        gravestFirst(findings),
        fits,
        setups.stream().map(s -> ModelCurves.transfer(model, posterior, s, grid)).toList(),
        setups.stream().flatMap(s -> TrebleShares.of(model, posterior, s).stream()).toList(),
        List.of());
  }

  private static FitResult.CaptureFit captureFit(
      CaptureReading r, Optional<Response> modelled, double[] residual) {
    int n = residual.length / 2;
    double[] re = new double[n];
    double[] im = new double[n];
    for (int i = 0; i < n; i++) {
      re[i] = -residual[2 * i];
      im[i] = -residual[2 * i + 1];
    }
    return new FitResult.CaptureFit(
        r.entry().id(),
        r.entry().setup(),
        "device over reference channel",
        r.measured(),
        modelled,
        re,
        im,
        new double[0],
        r.sha256(),
        r.sampleRate(),
        r.bits(),
        r.measurement().sweeps().size());
  }
}
