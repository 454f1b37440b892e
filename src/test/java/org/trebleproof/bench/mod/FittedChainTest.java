package org.trebleproof.bench.mod;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.FittedParts;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.Parameter;

/** A prediction that starts from what a fit has learned. */
class FittedChainTest {

  @Test
  void partsOfTheFitKeepWhatItKnowsAndBoughtOnesTheirMarking() {
    Job job = JobReader.read(Path.of("sample-captures/pot-swap/job.json"));
    Map<String, Double> values =
        Map.of(
            "pickup.resistance", 5700.0,
            "pickup.inductance", 2.4,
            "pickup.lossResistance", 800e3,
            "pickup.capacitance", 120e-12,
            "old volume", 238e3,
            "new volume", 519e3,
            "tone pot", 231e3,
            "tone cap", 21e-9,
            "lead", 481e-12);
    List<String> names = new ArrayList<>(values.keySet());
    names.add(Layout.RECORDER_RESISTANCE);
    names.add(Layout.RECORDER_CAPACITANCE);
    double[] log =
        names.stream()
            .mapToDouble(
                n ->
                    Math.log(
                        values.getOrDefault(
                            n, n.equals(Layout.RECORDER_RESISTANCE) ? 1e6 : 80e-12)))
            .toArray();
    double[][] covariance = new double[names.size()][names.size()];
    for (int i = 0; i < log.length; i++) {
      covariance[i][i] = 1e-8;
    }
    FittedParts fitted =
        new FittedParts(
            job,
            Map.of("pickup", CoilModel.LOSS_RESISTOR),
            names,
            log,
            covariance,
            names.stream().map(n -> Parameter.Path.VALUE).toList());
    SignalChain chain = SignalChain.of(fitted, List.of());
    assertEquals("after", chain.current());
    Prediction known = predict(chain, "after", "volume=old volume");
    assertTrue(
        known.levels().get(1).change().halfWidth() < 0.02, "both pots are known from the fit");
    assertEquals(List.of("volume pot 519k to 238k"), known.changes());
    Prediction bought = predict(chain, "before", "volume=500k");
    assertTrue(
        bought.levels().get(1).change().halfWidth() > 0.1, "a pot out of a bag has 20 per cent");
    assertEquals(List.of("volume pot 500k"), bought.worst().parts());
  }

  private static Prediction predict(SignalChain chain, String setup, String changes) {
    Layout now = chain.layout(Optional.of(setup));
    SignalChain both =
        chain.with("then", now, org.trebleproof.bench.job.PlanReader.parsed(List.of(changes)));
    return new Predictor(both, now, both.layouts().get("then"), 500).predict();
  }
}
