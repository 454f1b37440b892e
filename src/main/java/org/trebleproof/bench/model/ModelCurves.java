package org.trebleproof.bench.model;

import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Probe;
import org.trebleproof.fit.Posterior;
import org.trebleproof.fixture.RecordingPath;
import org.trebleproof.quantity.Estimate;

/** Curves of the fitted model with their 95 % bands, from the circuit's exact derivatives. */
public final class ModelCurves {

  private static final double DECIBEL = 20 / Math.log(10);

  private ModelCurves() {}

  /** Frequencies from {@code low} to {@code high}, so many per octave. */
  public static double[] grid(double low, double high, int perOctave) {
    int n = (int) Math.round(perOctave * Math.log(high / low) / Math.log(2)) + 1;
    double[] hz = new double[n];
    for (int i = 0; i < n; i++) {
      hz[i] = low * Math.pow(high / low, i / (n - 1.0));
    }
    return hz;
  }

  /** Voltage transfer of a setup. */
  public static FitResult.SetupCurve transfer(
      JobModel model, Posterior posterior, Setup setup, double[] hz) {
    Levels levels = new Levels(model, posterior, model.reportedCircuit(setup), hz);
    int n = hz.length;
    double[] low = new double[n];
    double[] high = new double[n];
    double[] phase = new double[n];
    for (int i = 0; i < n; i++) {
      double half =
          Estimate.NORMAL_95 * Math.hypot(posterior.sd(levels.gradient(i)), RecordingPath.LEVEL);
      low[i] = levels.decibel[i] - half;
      high[i] = levels.decibel[i] + half;
      phase[i] = Math.toDegrees(Math.atan2(levels.analysis.im()[i], levels.analysis.re()[i]));
    }
    return new FitResult.SetupCurve(setup.name(), hz, levels.decibel, low, high, phase);
  }

  /**
   * Level of one setup over another, same induced voltage: what the change of load does, so the
   * copper is as warm in both as in the first.
   */
  public static FitResult.DifferenceCurve difference(
      JobModel model, Posterior posterior, Setup from, Setup to, double[] hz) {
    Levels a = new Levels(model, posterior, model.reportedCircuit(from), hz);
    Levels b = new Levels(model, posterior, model.reportedCircuit(to, from), hz);
    int n = hz.length;
    double[] level = new double[n];
    double[] low = new double[n];
    double[] high = new double[n];
    for (int i = 0; i < n; i++) {
      double[] g = b.gradient(i);
      double[] minus = a.gradient(i);
      for (int p = 0; p < g.length; p++) {
        g[p] -= minus[p];
      }
      level[i] = b.decibel[i] - a.decibel[i];
      double half = Estimate.NORMAL_95 * Math.hypot(posterior.sd(g), RecordingPath.LEVEL);
      low[i] = level[i] - half;
      high[i] = level[i] + half;
    }
    return new FitResult.DifferenceCurve(from.name(), to.name(), hz, level, low, high, false);
  }

  /** What the difference at one frequency depends on, over the fit's coordinates [dB]. */
  public static double[] differenceGradient(
      JobModel model, Posterior posterior, Setup from, Setup to, double hz) {
    double[] at = {hz};
    double[] g = new Levels(model, posterior, model.reportedCircuit(to, from), at).gradient(0);
    double[] minus = new Levels(model, posterior, model.reportedCircuit(from), at).gradient(0);
    for (int p = 0; p < g.length; p++) {
      g[p] -= minus[p];
    }
    return g;
  }

  private static final class Levels {
    final Analysis analysis;
    final double[] decibel;
    private final int[] slots;
    private final int coordinates;

    Levels(JobModel model, Posterior posterior, Circuit circuit, double[] hz) {
      this.slots = model.slots(circuit);
      double[] mean = posterior.mean();
      this.coordinates = mean.length;
      this.analysis = circuit.analyse(hz, model.values(slots, mean), Probe.EMF_TO_JACK);
      this.decibel = new double[hz.length];
      for (int i = 0; i < hz.length; i++) {
        decibel[i] = DECIBEL * Math.log(Math.hypot(analysis.re()[i], analysis.im()[i]));
      }
    }

    double[] gradient(int i) {
      double re = analysis.re()[i];
      double im = analysis.im()[i];
      double power = re * re + im * im;
      double[] g = new double[coordinates];
      for (int s = 0; s < slots.length; s++) {
        g[slots[s]] += DECIBEL * (analysis.dRe()[s][i] * re + analysis.dIm()[s][i] * im) / power;
      }
      return g;
    }
  }
}
