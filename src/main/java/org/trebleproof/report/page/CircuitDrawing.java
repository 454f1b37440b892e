package org.trebleproof.report.page;

import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Part;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;
import org.trebleproof.report.schematic.Draughtsman;
import org.trebleproof.report.schematic.Inscription;
import org.trebleproof.report.schematic.Inscriptions;
import org.trebleproof.report.schematic.SvgSchematic;

/** A measured setup as a circuit, from the string to the recorder, with the values as fitted. */
final class CircuitDrawing implements Inscriptions {

  private final FitResult result;

  private CircuitDrawing(FitResult result) {
    this.result = result;
  }

  /**
   * The drawing as SVG. A part that differs between two setups is set off.
   *
   * @param id unique in the page; letters, digits and hyphens
   */
  static String of(FitResult result, Setup setup, String id) {
    Job job = result.job();
    Optional<Layout> other =
        job.setups().size() != 2
            ? Optional.empty()
            : job.setups().values().stream()
                .filter(s -> !s.name().equals(setup.name()))
                .findFirst()
                .map(CircuitDrawing::recorded);
    return SvgSchematic.of(
        Draughtsman.of(
            recorded(setup), other, new CircuitDrawing(result), "Circuit, " + setup.name()),
        id);
  }

  private static Layout recorded(Setup setup) {
    return Layout.of(setup)
        .with(Slot.INPUT, Layout.RECORDER_RESISTANCE)
        .with(Slot.INPUT_CAPACITANCE, Layout.RECORDER_CAPACITANCE);
  }

  @Override
  public Inscription part(Slot slot, String name) {
    Fixture.InputLoad input = result.job().fixture().input();
    if (name.equals(Layout.RECORDER_RESISTANCE)) {
      return new Inscription(marked(input.resistance(), Unit.OHM), false, "");
    }
    if (name.equals(Layout.RECORDER_CAPACITANCE)) {
      String note = input.stated() ? "" : "assumed";
      return new Inscription(marked(input.capacitance(), Unit.FARAD), false, note);
    }
    Optional<Estimate> estimate = result.rows().part(name).first();
    if (estimate.isPresent()) {
      return inscription(estimate.get());
    }
    Part part = result.job().parts().get(name);
    if (part == null || part.marking().isEmpty()) {
      return Inscription.NONE;
    }
    Marking marking = part.marking().get();
    return new Inscription(
        marked(marking, slot.quantity().unit()), true, marking.stated() ? "as marked" : "assumed");
  }

  @Override
  public Inscription coil(String pickup, CoilValue value) {
    Quantity quantity =
        switch (value) {
          case INDUCTANCE -> Quantity.INDUCTANCE;
          case RESISTANCE -> Quantity.RESISTANCE;
          case CAPACITANCE -> Quantity.CAPACITANCE;
        };
    return result
        .rows()
        .coil(pickup)
        .estimate(quantity)
        .map(CircuitDrawing::inscription)
        .orElse(Inscription.NONE);
  }

  private static Inscription inscription(Estimate estimate) {
    boolean guess = estimate.known() == Known.ASSUMED;
    return new Inscription(EstimateText.full(estimate), guess, guess ? "assumed" : "");
  }

  private static String marked(Marking marking, Unit unit) {
    return TradeNotation.print(marking.value(), unit, 4) + " ±" + Percent.of(marking.tolerance());
  }
}
