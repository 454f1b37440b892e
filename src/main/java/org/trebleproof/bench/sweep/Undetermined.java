package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.ModelEstimates;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.TradeNotation;

/** What the captures do not settle, together with the combination that they do. */
public final class Undetermined {

  /** A sum is known where its parts are not when its interval is this much narrower. */
  private static final double NARROWER = 5;

  /** Parts known better than this are known, as a relative half-width. */
  private static final double KNOWN = 0.03;

  private Undetermined() {}

  public static List<Finding> of(FittedModels models, Map<RowKey, ModelEstimates.Line> lines) {
    List<Finding> findings = new ArrayList<>();
    Job job = models.best().model().job();
    for (Setup setup : job.setups().values()) {
      String name = setup.name();
      RowKey capacitance = of(setup, Quantity.TOTAL_CAPACITANCE);
      RowKey load = of(setup, Quantity.LOAD_RESISTANCE);
      List<RowKey> capacitances =
          setup.cable().stream()
              .flatMap(
                  cable ->
                      Stream.of(
                          RowKey.of(job.coil(setup.pickup()), Quantity.CAPACITANCE),
                          job.parts().get(cable).row()))
              .toList();
      List<RowKey> pots =
          Stream.of(setup.volume(), setup.tone())
              .flatMap(Optional::stream)
              .map(pot -> job.parts().get(pot.part()).row())
              .toList();
      if (capacitances.size() == 2 && onlyTogether(lines, capacitance, capacitances)) {
        findings.add(
            sum(
                "Capacitance of coil, lead and recorder in \"" + name + "\": only their sum",
                lines.get(capacitance),
                capacitances,
                "Measure the lead by itself, or sweep the bare pickup through the series"
                    + " resistor."));
      }
      if (pots.size() == 2 && onlyTogether(lines, load, pots)) {
        findings.add(
            sum(
                "Volume pot, tone pot and recorder in \"" + name + "\": only their combination",
                lines.get(load),
                pots,
                "Measure one pot with an ohmmeter, one end unsoldered or out of the guitar."));
      }
    }
    twin(models, lines).ifPresent(findings::add);
    return findings;
  }

  private static RowKey of(Setup setup, Quantity quantity) {
    return RowKey.of(Subject.setup(setup.name()), quantity);
  }

  private static boolean onlyTogether(
      Map<RowKey, ModelEstimates.Line> lines, RowKey sum, List<RowKey> parts) {
    ModelEstimates.Line whole = lines.get(sum);
    return whole != null
        && parts.stream()
            .map(lines::get)
            .allMatch(
                l ->
                    l != null
                        && Estimate.NORMAL_95 * l.sd() > KNOWN
                        && l.sd() > NARROWER * whole.sd());
  }

  private static Finding sum(
      String what, ModelEstimates.Line line, List<RowKey> parts, String next) {
    return Finding.of(
            FindingCode.ONLY_THE_SUM,
            what + ", " + EstimateText.full(line.estimate()) + ".",
            "only the sum shows in the captures; how it divides rests on what is stated",
            next)
        .about(parts);
  }

  /**
   * With one load and the coil's resistance known, (L, C) and (R Rl C, L / (R Rl)) draw the same
   * curve up to its level. Where nothing stated rules the second one out, it is told.
   */
  private static Optional<Finding> twin(
      FittedModels models, Map<RowKey, ModelEstimates.Line> lines) {
    JobModel model = models.best().model();
    Job job = model.job();
    if (!(job.fixture() instanceof Fixture.Exciter)
        || job.setups().size() != 1
        || job.captures().stream().map(CaptureEntry::across).distinct().count() > 1) {
      return Optional.empty();
    }
    Setup setup = job.setups().values().iterator().next();
    Subject coil = job.coil(setup.pickup());
    ModelEstimates.Line load = lines.get(of(setup, Quantity.LOAD_RESISTANCE));
    ModelEstimates.Line total = lines.get(of(setup, Quantity.TOTAL_CAPACITANCE));
    ModelEstimates.Line l = lines.get(RowKey.of(coil, Quantity.INDUCTANCE));
    ModelEstimates.Line r = lines.get(RowKey.of(coil, Quantity.RESISTANCE));
    if (load == null || total == null) {
      return Optional.empty();
    }
    double product = r.value() * load.value();
    double otherL = product * total.value();
    double otherC = l.value() / product;
    double prior = total.priorSd();
    boolean ruledOut =
        Math.abs(Math.log(otherC / total.value())) > 3 * prior || otherL < 0.5 || otherL > 20;
    if (ruledOut) {
      return Optional.empty();
    }
    List<RowKey> open =
        List.of(
            RowKey.of(coil, Quantity.INDUCTANCE),
            RowKey.of(coil, Quantity.CAPACITANCE),
            of(setup, Quantity.TOTAL_CAPACITANCE));
    return Optional.of(
        Finding.of(
                FindingCode.TWIN_SOLUTION,
                "Two different pickups draw this same curve, and nothing stated rules one out, so"
                    + " inductance and capacitance are not given.",
                TradeNotation.print(l.value(), l.unit())
                    + " with "
                    + TradeNotation.print(total.value(), total.unit())
                    + ", or "
                    + TradeNotation.print(otherL, l.unit())
                    + " with "
                    + TradeNotation.print(otherC, total.unit()),
                "Clip 1 nF across the jack and sweep again.")
            .about(open));
  }
}
