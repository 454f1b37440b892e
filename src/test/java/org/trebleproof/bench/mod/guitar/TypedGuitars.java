package org.trebleproof.bench.mod.guitar;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;

/** Guitars of typed numbers that the tests of this package share. */
public final class TypedGuitars {
  private TypedGuitars() {}

  public static TypedCoil coil(
      String inductance, String resistance, String capacitance, String loss) {
    return new TypedCoil(
        TradeNotation.marking(inductance, MarkedQuantity.COIL_INDUCTANCE),
        TradeNotation.marking(resistance, MarkedQuantity.PICKUP_RESISTANCE),
        TradeNotation.marking(capacitance, MarkedQuantity.WINDING_CAPACITANCE),
        Optional.ofNullable(loss)
            .map(l -> TradeNotation.marking(l, MarkedQuantity.LOSS_RESISTANCE)));
  }

  /** A single coil of these values, such as {@code inductance=2.4,resistance=5.7k,...}. */
  public static SignalChain of(String coil, String wiring) {
    Map<String, String> v = PlanReader.parsed(List.of(coil));
    return TypedCoil.guitar(
        Map.of(
            "pickup",
            coil(v.get("inductance"), v.get("resistance"), v.get("capacitance"), v.get("loss"))),
        PlanReader.parsed(List.of(wiring)));
  }

  /** A single coil, and a second pickup that is off. */
  public static SignalChain single(String wiring) {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put("pickup", coil("2.4", "5.7k", "120p", "800k"));
    coils.put("neck", coil("2.1", "5.5k", "110p", "800k"));
    return TypedCoil.guitar(coils, PlanReader.parsed(List.of(wiring)));
  }

  /** A single coil, and two further pickups that are off. */
  public static SignalChain threePickups(String wiring) {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put("pickup", coil("2.4", "5.7k", "120p", "800k"));
    coils.put("neck", coil("2.1", "5.5k", "110p", "800k"));
    coils.put("middle", coil("2.2", "5.6k", "115p", "700k"));
    return TypedCoil.guitar(coils, PlanReader.parsed(List.of(wiring)));
  }

  static Layout changed(SignalChain chain, String changes) {
    return with(chain, changes).layouts().get("then");
  }

  public static SignalChain with(SignalChain chain, String changes) {
    return chain.with("then", chain.layout(Optional.empty()), PlanReader.parsed(List.of(changes)));
  }

  public static Prediction predict(SignalChain chain, String changes, int draws) {
    SignalChain both = with(chain, changes);
    return new Predictor(both, both.layout(Optional.empty()), both.layouts().get("then"), draws)
        .predict();
  }
}
