package org.trebleproof.bench.model;

import org.trebleproof.bench.job.Part;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.fit.Parameter;
import org.trebleproof.quantity.Marking;

/** A pickup that was not swept, as its stated values make it: the simplest coil that has them. */
final class StatedCoil {

  private StatedCoil() {}

  static CoilModel model(Part pickup) {
    return pickup.coil().loss().isPresent() ? CoilModel.LOSS_RESISTOR : CoilModel.IDEAL;
  }

  /** A parameter with the stated value and tolerance as what is known of it. */
  static Parameter prior(Part pickup, CoilParameter parameter) {
    Marking marking =
        switch (parameter.role()) {
          case RESISTANCE -> pickup.marking().orElseThrow();
          case INDUCTANCE -> pickup.coil().inductance().orElseThrow();
          case LOSS_RESISTANCE -> pickup.coil().loss().orElseThrow();
          default -> pickup.coil().capacitance().orElseThrow();
        };
    Parameter prior =
        Parameter.positive(
            parameter.in(pickup.name()), marking.value(), marking.value(), marking.logSd());
    return parameter.role() == CoilParameter.Role.LOSS_RESISTANCE
        ? prior.alongReciprocal()
        : prior.alongValue();
  }
}
