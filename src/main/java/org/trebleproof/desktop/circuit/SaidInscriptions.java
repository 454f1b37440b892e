package org.trebleproof.desktop.circuit;

import java.util.Optional;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Quantity;
import org.trebleproof.report.schematic.Inscription;
import org.trebleproof.report.schematic.Inscriptions;
import org.trebleproof.report.schematic.KnownInscriptions;

/**
 * Values as the verdict says them; what it does not speak of, such as a part that is tried, as the
 * guitar knows it. An assumed one says that it is.
 */
final class SaidInscriptions implements Inscriptions {

  private final Rows verdict;
  private final Inscriptions known;

  SaidInscriptions(SignalChain chain, Rows verdict) {
    this.verdict = verdict;
    this.known = new KnownInscriptions(chain);
  }

  @Override
  public Inscription part(Slot slot, String name) {
    return verdict
        .part(name)
        .first()
        .map(SaidInscriptions::of)
        .orElse(said(known.part(slot, name)));
  }

  @Override
  public Inscription coil(String pickup, CoilValue value) {
    Quantity quantity =
        switch (value) {
          case INDUCTANCE -> Quantity.INDUCTANCE;
          case RESISTANCE -> Quantity.RESISTANCE;
          case CAPACITANCE -> Quantity.CAPACITANCE;
        };
    Optional<Estimate> told = verdict.coil(pickup).estimate(quantity);
    return told.map(SaidInscriptions::of).orElse(said(known.coil(pickup, value)));
  }

  private static Inscription of(Estimate estimate) {
    boolean guess = estimate.known() == Known.ASSUMED;
    return new Inscription(
        EstimateText.full(estimate), guess, guess ? Texts.of("circuit.assumed") : "");
  }

  private static Inscription said(Inscription one) {
    return one.guess() && one.note().isEmpty()
        ? new Inscription(one.value(), true, Texts.of("circuit.assumed"))
        : one;
  }
}
