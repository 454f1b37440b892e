package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.BenchEffects;
import org.trebleproof.bench.model.BenchUnknown;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.RowKey;

/** What a fit has found out about the bench itself and allowed for. */
public final class BenchFindings {

  /** So many standard deviations an effect must stand out to be worth a word. */
  private static final double PLAIN = 4;

  /** A coil that is warmer by less is as warm [K]. */
  private static final double NOTABLE_KELVIN = 0.5;

  /** A leak below this is none [share of the reference channel]. */
  private static final double NOTABLE_LEAK = 5e-5;

  /** Chi-square per point up to which a change has the form of the job's change of load. */
  private static final double NO_LOAD = 3;

  /** A model that misses the captures by more than this does not explain them. */
  private static final double MISSED = 1e-4;

  private BenchFindings() {}

  /** The copper's temperature and leaks between the channels. */
  public static List<Finding> of(FittedModels models) {
    List<Finding> findings = new ArrayList<>();
    JobModel model = models.best().model();
    Posterior posterior = models.best().posterior();
    for (Setup setup : model.job().setups().values()) {
      warmer(model, posterior, setup).ifPresent(findings::add);
    }
    leak(model, posterior).ifPresent(findings::add);
    return findings;
  }

  private static Optional<Finding> warmer(JobModel model, Posterior posterior, Setup setup) {
    int i = model.index(BenchUnknown.WARMTH.key(setup.name()));
    if (i < 0) {
      return Optional.empty();
    }
    double kelvin = posterior.mean()[i] / BenchEffects.COPPER;
    double sd = posterior.sd(i) / BenchEffects.COPPER;
    if (Math.abs(kelvin) < Math.max(NOTABLE_KELVIN, PLAIN * sd)) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.of(
            FindingCode.COIL_TEMPERATURE,
            String.format(
                Locale.ROOT,
                "In \"%s\" the coil was %.1f \u00b1%.1f K %s, which the values allow for.",
                setup.name(),
                Math.abs(kelvin),
                Estimate.NORMAL_95 * sd,
                kelvin > 0 ? "warmer" : "colder"),
            String.format(
                Locale.ROOT,
                "its copper has %.2f %% %s resistance",
                100 * Math.abs(Math.expm1(posterior.mean()[i])),
                kelvin > 0 ? "more" : "less"),
            "A thermometer's reading beside each setup, \"temperature\": \"24 C\", makes this"
                + " known instead of found."));
  }

  private static Optional<Finding> leak(JobModel model, Posterior posterior) {
    int i = model.index(BenchUnknown.LEAK.key());
    if (i < 0) {
      return Optional.empty();
    }
    double leak = model.value(posterior.mean(), BenchUnknown.LEAK.key());
    double rise = model.value(posterior.mean(), BenchUnknown.LEAK_RISE.key());
    double unit = model.parameters().get(i).unit();
    double sd = unit * posterior.sd(i);
    double sdRise = unit * posterior.sd(model.index(BenchUnknown.LEAK_RISE.key()));
    double size = Math.hypot(leak, rise);
    if (size < NOTABLE_LEAK || Math.abs(leak) < PLAIN * sd && Math.abs(rise) < PLAIN * sdRise) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.of(
            FindingCode.CHANNELS_CROSSTALK,
            String.format(
                Locale.ROOT,
                "The device channel hears the reference channel at %.0f dB, which the values allow"
                    + " for.",
                20 * Math.log10(size)),
            String.format(
                Locale.ROOT,
                "%.3f %% through a resistance, %.3f %% at 10 kHz through a capacitance",
                100 * leak,
                100 * rise),
            "Unplug the device, leave its input open and play the sweep: nothing but noise should"
                + " arrive. Separate the two leads, and look at the recorder's direct monitoring."));
  }

  /**
   * Where the change between two setups is no change of load: what the job says is then not what
   * was done. A model of coil and load that explains the captures says that it is one.
   */
  public static Optional<Finding> noLoad(CoilFreeChange change, FittedModels models) {
    if (change.reducedChiSquare() < NO_LOAD || models.discrepancy().floor() < MISSED) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.of(
                FindingCode.CHANGE_IS_NO_LOAD,
                "What changed from \""
                    + change.from()
                    + "\" to \""
                    + change.to()
                    + "\" is not what the job says, so no change of load is given.",
                String.format(
                    Locale.ROOT,
                    "no values of the parts that differ explain the change without a coil model: it"
                        + " is off by %.0f times the noise",
                    Math.sqrt(change.reducedChiSquare())),
                "Check that volume and tone were full up in both setups, that nothing else was"
                    + " plugged in or left clipped on, and which file belongs to which setup.")
            .about(List.of(RowKey.LOAD_CHANGE)));
  }
}
