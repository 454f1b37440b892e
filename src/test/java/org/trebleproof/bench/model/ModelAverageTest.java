package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.trebleproof.quantity.RowKeys.key;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.Job;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.LeastSquares;
import org.trebleproof.fit.Posterior;
import org.trebleproof.quantity.RowKey;

/**
 * Averaging over models: the mean and variance of a mixture, sum w m and sum w (s^2 + (m - mean)^2)
 * (law of total variance), on logarithms where these are what is normal.
 */
class ModelAverageTest {

  private static ModelEstimates table(MadeUpJob made, CoilModel coil) {
    Job job = made.job();
    JobModel model = new JobModel(job, coil, CurveStart.of(job, made.measured()), made.measured());
    double[] x = model.parameters().stream().mapToDouble(p -> p.start()).toArray();
    return new ModelEstimates(
        model, Posterior.of(LeastSquares.at(model.parameters(), model.residuals(0, 1), x), 1));
  }

  @Test
  void theMixtureOfTwoModels() {
    MadeUpJob made = MadeUpJob.singleCoil(8).series(100e3, 1, 0).swapParts();
    made.sweep("a", "before", 1).sweep("b", "after", 1);
    List<ModelEstimates> tables =
        List.of(table(made, CoilModel.LOSS_RESISTOR), table(made, CoilModel.SOLID_CORE));
    double[] w = {0.7, 0.3};
    Map<RowKey, ModelEstimates.Line> mixed = ModelEstimates.average(tables, w);
    for (String key : List.of("pickup.inductance", "before.resonancePeak", "old volume.value")) {
      double[] m = new double[2];
      double[] s = new double[2];
      for (int i = 0; i < 2; i++) {
        ModelEstimates.Line line = tables.get(i).lines().get(key(key));
        m[i] = key.endsWith("Peak") ? line.value() : Math.log(line.value());
        s[i] = line.sd();
      }
      double mean = 0.7 * m[0] + 0.3 * m[1];
      double variance =
          0.7 * (s[0] * s[0] + Math.pow(m[0] - mean, 2))
              + 0.3 * (s[1] * s[1] + Math.pow(m[1] - mean, 2));
      ModelEstimates.Line line = mixed.get(key(key));
      assertEquals(
          key.endsWith("Peak") ? mean : Math.exp(mean),
          line.value(),
          1e-12 * Math.abs(line.value()),
          key);
      assertEquals(Math.sqrt(variance), line.sd(), 1e-12 * line.sd(), key);
    }
  }
}
