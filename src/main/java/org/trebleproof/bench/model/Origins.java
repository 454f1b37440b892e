package org.trebleproof.bench.model;

import java.util.Map;
import org.trebleproof.bench.answer.Budget;
import org.trebleproof.bench.answer.Budget.Origin;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.bench.job.Part;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.fit.Parameter;
import org.trebleproof.fit.Posterior;

/** Whose statement the prior of each of a job's unknowns is. */
public final class Origins {

  private Origins() {}

  /** Where what is known of an unknown beforehand comes from. */
  public static Origin of(JobModel model, Parameter parameter) {
    String name = parameter.name();
    Part part = model.job().parts().get(name);
    if (part != null) {
      return new Origin(Source.MARKING, name);
    }
    return BenchUnknown.of(name)
        .map(kind -> Origin.of(kind.source()))
        .orElseGet(() -> ofCoil(model, name));
  }

  /**
   * Adds what each prior contributes to the variance of a quantity with this gradient, and what is
   * left of it as noise.
   */
  public static void ofEstimate(
      JobModel model, Posterior posterior, double[] gradient, Map<Origin, Double> into) {
    double rest = Math.pow(posterior.sd(gradient), 2);
    double[] priors = posterior.fromPriors(gradient);
    for (int i = 0; i < priors.length; i++) {
      Budget.add(into, of(model, posterior.parameters().get(i)), priors[i]);
      rest -= priors[i];
    }
    Budget.add(into, Origin.of(Source.NOISE), Math.max(0, rest));
  }

  private static Origin ofCoil(JobModel model, String name) {
    return model
        .ofCoil(name)
        .map(
            c ->
                ofCoil(model.job().parts().get(c.pickup()), c.parameter(), model.swept(c.pickup())))
        .orElse(Origin.of(Source.MODEL));
  }

  private static Origin ofCoil(Part pickup, CoilParameter parameter, boolean swept) {
    boolean stated =
        !swept || parameter.role() == CoilParameter.Role.RESISTANCE && pickup.marking().isPresent();
    if (stated) {
      return new Origin(Source.MARKING, pickup.name());
    }
    return switch (parameter.role()) {
      case RESISTANCE, INDUCTANCE, CAPACITANCE -> Origin.of(Source.USUAL);
      default -> Origin.of(Source.MODEL);
    };
  }
}
