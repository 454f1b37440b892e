package org.trebleproof.report.schematic;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.List;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.Knowledge;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.Derived;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;

/** Values as a guitar knows them, measured or marked, each with its tolerance. */
public final class KnownInscriptions implements Inscriptions {
  private static final int DIGITS = 3;

  private final SignalChain chain;

  /** Values of this guitar's parts. */
  public KnownInscriptions(SignalChain chain) {
    this.chain = chain;
  }

  @Override
  public Inscription part(Slot slot, String name) {
    Knowledge known = chain.knowledge();
    int i = known.names().indexOf(name);
    if (i < 0) {
      return Inscription.NONE;
    }
    Marking marking = known.markings().get(name);
    double half = Estimate.NORMAL_95 * Math.sqrt(known.logCovariance()[i][i]);
    return new Inscription(
        text(Math.exp(known.logMean()[i]), half, slot.quantity().unit()),
        marking != null && !marking.stated(),
        "");
  }

  @Override
  public Inscription coil(String pickup, CoilValue value) {
    CoilModel coil = chain.coils().get(pickup);
    if (coil == null) {
      return Inscription.NONE;
    }
    Knowledge known = chain.knowledge();
    List<String> names = known.names();
    double[] values = new double[names.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = Math.exp(known.logMean()[i]);
    }
    Derived derived =
        switch (value) {
          case INDUCTANCE -> coil.lowFrequencyInductance(pickup, names, values);
          case RESISTANCE -> coil.resistance(pickup, names, values);
          case CAPACITANCE ->
              coil.windingCapacitance(pickup, names, values, CoilModel.USUAL_RESONANCE);
        };
    Unit unit =
        switch (value) {
          case INDUCTANCE -> Unit.HENRY;
          case RESISTANCE -> Unit.OHM;
          case CAPACITANCE -> Unit.FARAD;
        };
    double half = known.halfWidth(derived.gradient()) / derived.value();
    return new Inscription(text(derived.value(), half, unit), false, "");
  }

  private static String text(double value, double half, Unit unit) {
    String plain = TradeNotation.print(value, unit, DIGITS);
    if (!(half > 0)) {
      return plain;
    }
    BigDecimal percent = BigDecimal.valueOf(100 * half).round(new MathContext(half < 0.1 ? 1 : 2));
    return plain + " ±" + percent.stripTrailingZeros().toPlainString() + " %";
  }
}
