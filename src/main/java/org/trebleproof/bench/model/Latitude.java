package org.trebleproof.bench.model;

import java.util.HashMap;
import java.util.Map;
import org.trebleproof.fit.Parameter;

/**
 * What a fit is allowed beyond what the job states.
 *
 * @param leak standard deviation of what may leak from the reference channel into the device
 *     channel, as a share of it; 0 for nothing
 * @param loosened statements that are taken to be looser than stated: name to the spread of the
 *     coordinate
 */
record Latitude(double leak, Map<String, Double> loosened) {

  /** Everything is as stated. */
  static final Latitude NONE = new Latitude(0, Map.of());

  Latitude {
    loosened = Map.copyOf(loosened);
  }

  /** The same with a leak between the channels of this order. */
  Latitude withLeak(double sd) {
    return new Latitude(sd, loosened);
  }

  /** The same with one statement taken to be as loose as this. */
  Latitude loosened(String name, double spread) {
    Map<String, Double> all = new HashMap<>(loosened);
    all.put(name, spread);
    return new Latitude(leak, all);
  }

  /** The parameter, its prior as wide as this allows. */
  Parameter of(Parameter p) {
    Double spread = loosened.get(p.name());
    return spread == null || spread <= p.priorSd()
        ? p
        : new Parameter(
            p.name(), p.logarithmic(), p.unit(), p.start(), p.priorMean(), spread, p.path());
  }
}
