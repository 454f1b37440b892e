package org.trebleproof.bench.sweep;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Setup;
import org.trebleproof.bench.model.JobModel;
import org.trebleproof.bench.model.LoadChange;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.Probe;

/** A sum of load admittances, each with a sign, as a function of a fit's coordinates. */
final class LoadAdmittance implements LoadChange.LoadDifference {

  private final JobModel model;
  private final List<Term> terms = new ArrayList<>();

  private record Term(Circuit circuit, int[] slots, double sign) {}

  LoadAdmittance(JobModel model) {
    this.model = model;
  }

  /** The load of {@code to} less that of {@code from}, recorder included in both. */
  static LoadAdmittance change(JobModel model, Setup from, Setup to) {
    LoadAdmittance change = new LoadAdmittance(model);
    change.add(model.recorded(to).load(), 1);
    change.add(model.recorded(from).load(), -1);
    return change;
  }

  /** What is clipped across the jack in a capture. */
  static LoadAdmittance clipped(JobModel model, List<String> parts) {
    LoadAdmittance clip = new LoadAdmittance(model);
    clip.add(model.clipped(parts), 1);
    return clip;
  }

  private void add(Circuit circuit, double sign) {
    terms.add(new Term(circuit, model.slots(circuit), sign));
  }

  @Override
  public IntStream coordinates() {
    return terms.stream().flatMapToInt(term -> IntStream.of(term.slots()));
  }

  @Override
  public void evaluate(
      double[] x, double[] hz, double[] re, double[] im, double[][][] derivatives) {
    for (Term term : terms) {
      Analysis a =
          term.circuit().analyse(hz, model.values(term.slots(), x), Probe.PICKUP_ADMITTANCE);
      for (int i = 0; i < hz.length; i++) {
        re[i] += term.sign() * a.re()[i];
        im[i] += term.sign() * a.im()[i];
      }
      for (int s = 0; s < term.slots().length; s++) {
        int p = term.slots()[s];
        if (derivatives[p] == null) {
          derivatives[p] = new double[2][hz.length];
        }
        for (int i = 0; i < hz.length; i++) {
          derivatives[p][0][i] += term.sign() * a.dRe()[s][i];
          derivatives[p][1][i] += term.sign() * a.dIm()[s][i];
        }
      }
    }
  }

  /** Conductance at one frequency [S]. */
  double conductance(double[] x, double hz) {
    double sum = 0;
    for (Term term : terms) {
      sum +=
          term.sign()
              * term.circuit()
                  .evaluate(
                      new double[] {hz}, model.values(term.slots(), x), Probe.PICKUP_ADMITTANCE)
                  .re()[0];
    }
    return sum;
  }
}
