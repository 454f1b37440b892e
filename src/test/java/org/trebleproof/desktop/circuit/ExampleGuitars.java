package org.trebleproof.desktop.circuit;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;

/** Guitars of typed numbers for the tests of this package. */
final class ExampleGuitars {

  static final String USUAL =
      "volume=250k 10%,tone=250k,toneCapacitor=22n 10%,cable=500p 5%,input=1M 1%";

  private ExampleGuitars() {}

  static SignalChain guitar(String wiring) {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put("bridge", coil("2.4", "5.7k", "120p"));
    coils.put("neck", coil("2.1", "5.5k", "110p"));
    return TypedCoil.guitar(coils, PlanReader.parsed(List.of(wiring)));
  }

  static WhatIf asItIs(String wiring) {
    SignalChain chain = guitar(wiring);
    return WhatIf.of(chain, chain.layout(Optional.empty()), Map.of());
  }

  private static TypedCoil coil(String inductance, String resistance, String capacitance) {
    return new TypedCoil(
        TradeNotation.marking(inductance, MarkedQuantity.COIL_INDUCTANCE),
        TradeNotation.marking(resistance, MarkedQuantity.PICKUP_RESISTANCE),
        TradeNotation.marking(capacitance, MarkedQuantity.WINDING_CAPACITANCE),
        Optional.of(TradeNotation.marking("800k", MarkedQuantity.LOSS_RESISTANCE)));
  }
}
