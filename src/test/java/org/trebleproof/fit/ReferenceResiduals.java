package org.trebleproof.fit;

import java.util.List;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.quantity.Response;

/** The data of a reference fit against its circuits: the problem that SciPy solved. */
record ReferenceResiduals(ReferenceFit fit, List<String> names) implements ResidualModel {

  static ReferenceResiduals of(ReferenceFit fit) {
    return new ReferenceResiduals(
        fit, fit.parameters().stream().map(ReferenceFit.Parameter::name).toList());
  }

  /** The unknowns with their priors, started {@code off} away from SciPy's answer. */
  List<Parameter> startedOff(double off) {
    return fit.parameters().stream()
        .map(
            p -> {
              double start = p.estimate() * Math.exp(names.indexOf(p.name()) % 2 == 0 ? off : -off);
              return p.prior().isPresent()
                  ? Parameter.positive(p.name(), start, p.prior().getAsDouble(), p.priorLogSd())
                  : Parameter.free(p.name(), start);
            })
        .toList();
  }

  @Override
  public int size() {
    return fit.captures().stream().mapToInt(c -> 2 * c.measured().size()).sum();
  }

  @Override
  public void evaluate(double[] x, double[] residual, double[][] jacobian) {
    int row = 0;
    for (ReferenceFit.Capture capture : fit.captures()) {
      Response measured = capture.measured();
      List<String> slots = capture.circuit().parameters();
      double[] values =
          slots.stream().mapToDouble(slot -> Math.exp(x[names.indexOf(slot)])).toArray();
      Analysis model = capture.circuit().analyse(measured.hz(), values, capture.probe());
      for (int i = 0; i < measured.size(); i++, row += 2) {
        residual[row] = (model.re()[i] - measured.re()[i]) / measured.sd()[i];
        residual[row + 1] = (model.im()[i] - measured.im()[i]) / measured.sd()[i];
        for (int slot = 0; jacobian != null && slot < values.length; slot++) {
          int column = names.indexOf(slots.get(slot));
          jacobian[row][column] = model.dRe()[slot][i] / measured.sd()[i];
          jacobian[row + 1][column] = model.dIm()[slot][i] / measured.sd()[i];
        }
      }
    }
  }
}
