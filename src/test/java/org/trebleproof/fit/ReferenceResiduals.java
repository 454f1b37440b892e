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

  /**
   * What is marked, started at its marking; what is not, {@code off} above and below SciPy's answer
   * in turn (logarithms).
   */
  List<Parameter> startedOff(double off) {
    return fit.parameters().stream()
        .map(
            p -> {
              double start = p.estimate() * Math.exp(names.indexOf(p.name()) % 2 == 0 ? off : -off);
              if (p.prior().isEmpty()) {
                return stepped(Parameter.free(p.name(), start));
              }
              double marking = p.prior().getAsDouble();
              return stepped(Parameter.positive(p.name(), marking, marking, p.priorLogSd()));
            })
        .toList();
  }

  /** Along the quantity that adds up: capacitances and conductances in parallel. */
  private static Parameter stepped(Parameter parameter) {
    return switch (parameter.name()) {
      case "pickup.capacitance", "lead", "input C" -> parameter.alongValue();
      case "old volume", "new volume", "tone pot", "input" -> parameter.alongReciprocal();
      default -> parameter;
    };
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
