package org.trebleproof.fit;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalDouble;
import java.util.stream.StreamSupport;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Probe;
import org.trebleproof.quantity.Response;

/**
 * A fit made by SciPy: the data, the best parameters and their covariance. {@code
 * reference_fits.py} beside the JSON made it and says what each number means.
 *
 * @param name what was fitted
 * @param captures the data
 * @param parameters in the order of the covariance
 * @param covariance of the logarithms of the parameters, not widened
 * @param chiSquare of the measured values at the best parameters
 * @param chiSquarePriors of the priors at the best parameters
 */
record ReferenceFit(
    String name,
    List<Capture> captures,
    List<Parameter> parameters,
    double[][] covariance,
    double chiSquare,
    double chiSquarePriors) {

  /** Measured values and the circuit that should give them. */
  record Capture(Circuit circuit, Probe probe, Response measured) {}

  /**
   * A parameter.
   *
   * @param prior its prior value, if any
   * @param priorLogSd standard deviation of the logarithm under the prior
   * @param estimate SciPy's
   */
  record Parameter(String name, OptionalDouble prior, double priorLogSd, double estimate) {}

  /** The name, as JUnit shows it. */
  @Override
  public String toString() {
    return name;
  }

  /** All committed fits. */
  static List<ReferenceFit> all() throws IOException {
    try (InputStream json = ReferenceFit.class.getResourceAsStream("reference_fits.json")) {
      List<ReferenceFit> all = new ArrayList<>();
      for (JsonNode one : new ObjectMapper().readTree(json)) {
        all.add(read(one));
      }
      return all;
    }
  }

  private static ReferenceFit read(JsonNode node) {
    CoilModel coil =
        CoilModel.all().stream()
            .filter(model -> model.label().equals(node.get("coil").asText()))
            .findFirst()
            .orElseThrow();
    List<Capture> captures = new ArrayList<>();
    for (JsonNode capture : node.get("captures")) {
      captures.add(
          new Capture(
              wiring(capture.get("wiring")).circuit(coil, "pickup"),
              Probe.valueOf(capture.get("probe").asText()),
              new Response(
                  numbers(capture.get("hz")),
                  numbers(capture.get("re")),
                  numbers(capture.get("im")),
                  numbers(capture.get("sd")))));
    }
    List<Parameter> parameters = new ArrayList<>();
    for (JsonNode parameter : node.get("parameters")) {
      JsonNode prior = parameter.path("prior");
      parameters.add(
          new Parameter(
              parameter.get("name").asText(),
              prior.isMissingNode()
                  ? OptionalDouble.empty()
                  : OptionalDouble.of(prior.get("value").asDouble()),
              prior.path("logSd").asDouble(Double.POSITIVE_INFINITY),
              parameter.get("estimate").asDouble()));
    }
    return new ReferenceFit(
        node.get("name").asText(),
        List.copyOf(captures),
        List.copyOf(parameters),
        StreamSupport.stream(node.get("covariance").spliterator(), false)
            .map(ReferenceFit::numbers)
            .toArray(double[][]::new),
        node.get("chiSquare").asDouble(),
        node.get("chiSquarePriors").asDouble());
  }

  private static GuitarWiring wiring(JsonNode parts) {
    GuitarWiring wiring = GuitarWiring.bare();
    if (parts.has("volume")) {
      wiring = wiring.withVolume(parts.get("volume").asText(), 1);
    }
    if (parts.has("tone")) {
      wiring =
          wiring.withTone(
              parts.get("tone").asText(), 1, parts.get("toneCapacitor").asText(), false);
    }
    if (parts.has("cable")) {
      wiring = wiring.withCable(parts.get("cable").asText());
    }
    if (parts.has("inputResistance")) {
      wiring =
          wiring.withInput(
              parts.get("inputResistance").asText(), parts.get("inputCapacitance").asText());
    }
    if (parts.has("seriesDrive")) {
      wiring = wiring.withSeriesDrive(parts.get("seriesDrive").asText());
    }
    return wiring;
  }

  private static double[] numbers(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false)
        .mapToDouble(JsonNode::asDouble)
        .toArray();
  }
}
