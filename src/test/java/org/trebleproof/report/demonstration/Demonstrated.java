package org.trebleproof.report.demonstration;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.bench.mod.turn.TurnTable;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.quantity.Marking;

/** Guitars with their pages, and what the program itself says of them. */
record Demonstrated(SignalChain chain, Layout before, Layout after) {
  private static final int FEW_DRAWS = 200;

  static Demonstrated changed(SignalChain chain, String changes) {
    Layout now = chain.layout(Optional.empty());
    SignalChain both = chain.with("then", now, PlanReader.parsed(List.of(changes)));
    return new Demonstrated(both, now, both.layouts().get("then"));
  }

  /** A guitar with a coil of any model, its parameters as usual for a single coil. */
  static SignalChain withCoil(SignalChain typed, CoilModel coil) {
    Map<String, Marking> values = new LinkedHashMap<>();
    for (CoilParameter p : coil.parameters()) {
      values.put(p.in("pickup"), new Marking(usual(p), 0.02, true));
    }
    Map<String, Marking> parts = new LinkedHashMap<>();
    typed
        .layout(Optional.empty())
        .parts()
        .values()
        .forEach(part -> parts.put(part, typed.knowledge().markings().get(part)));
    return new SignalChain(
        typed.title(),
        Map.of("pickup", coil),
        org.trebleproof.bench.mod.guitar.Knowledge.of(parts).and(values),
        typed.slots(),
        typed.layouts(),
        typed.current(),
        List.of());
  }

  private static double usual(CoilParameter parameter) {
    return switch (parameter.role()) {
      case RESISTANCE -> 3000;
      case INDUCTANCE -> 1.1;
      case CAPACITANCE -> 150e-12;
      case LOSS_RESISTANCE -> 700e3;
      case SPLIT_INDUCTANCE, CORE_INDUCTANCE, COVER_INDUCTANCE -> 0.35;
      case SPLIT_TIME, COVER_TIME -> 3e-5;
      case CORE_TIME -> 8e-5;
      case LOSS_TANGENT -> 0.03;
      case DEPARTURE -> 1.01;
      default -> 0.4;
    };
  }

  String page(Optional<CarriedStrike> strike) {
    return DemonstrationPage.of(
        TurnTable.of(chain, before, after),
        new Predictor(chain, before, after, FEW_DRAWS).predict(),
        strike,
        "2026-11-30");
  }

  String page() {
    return page(Optional.empty());
  }

  /** The level of the guitar after with something else changed on top [dB]. */
  double[] predicted(String changes, double[] hz) {
    if (changes.isEmpty()) {
      return new Predictor(chain, before, after, 1).curve(hz);
    }
    SignalChain more = chain.with("#more", after, PlanReader.parsed(List.of(changes)));
    return new Predictor(more, before, more.layouts().get("#more"), 1).curve(hz);
  }
}
