package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.apache.commons.math3.linear.MatrixUtils;
import org.apache.commons.math3.linear.QRDecomposition;
import org.apache.commons.math3.linear.RealMatrix;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.quantity.Response;

/**
 * SciPy's best parameters, put into the circuits: the misfit must be SciPy's, the slope of the
 * misfit must vanish, and the curvature must be the inverse of SciPy's covariance.
 */
class ReferenceFitModelTest {

  static Stream<ReferenceFit> fits() throws IOException {
    return ReferenceFit.all().stream();
  }

  @ParameterizedTest
  @MethodSource("fits")
  void scipysMinimumIsAMinimumOfTheCircuits(ReferenceFit fit) {
    List<ReferenceFit.Parameter> parameters = fit.parameters();
    List<String> names = parameters.stream().map(ReferenceFit.Parameter::name).toList();
    int n = names.size();
    double chiSquare = 0;
    double[] slope = new double[n];
    double[][] curvature = new double[n][n];
    for (ReferenceFit.Capture capture : fit.captures()) {
      Response measured = capture.measured();
      List<String> slots = capture.circuit().parameters();
      double[] values =
          slots.stream().mapToDouble(s -> parameters.get(names.indexOf(s)).estimate()).toArray();
      Analysis model = capture.circuit().analyse(measured.hz(), values, capture.probe());
      for (int i = 0; i < measured.size(); i++) {
        double re = (measured.re()[i] - model.re()[i]) / measured.sd()[i];
        double im = (measured.im()[i] - model.im()[i]) / measured.sd()[i];
        chiSquare += re * re + im * im;
        for (int a = 0; a < slots.size(); a++) {
          int row = names.indexOf(slots.get(a));
          double aRe = model.dRe()[a][i] / measured.sd()[i];
          double aIm = model.dIm()[a][i] / measured.sd()[i];
          slope[row] += re * aRe + im * aIm;
          for (int b = 0; b < slots.size(); b++) {
            curvature[row][names.indexOf(slots.get(b))] +=
                (aRe * model.dRe()[b][i] + aIm * model.dIm()[b][i]) / measured.sd()[i];
          }
        }
      }
    }
    double chiSquarePriors = 0;
    for (int k = 0; k < n; k++) {
      ReferenceFit.Parameter parameter = parameters.get(k);
      if (parameter.prior().isPresent()) {
        double sd = parameter.priorLogSd();
        double off = Math.log(parameter.estimate() / parameter.prior().getAsDouble()) / sd;
        chiSquarePriors += off * off;
        slope[k] -= off / sd;
        curvature[k][k] += 1 / (sd * sd);
      }
    }
    // Both sums run over some hundred terms near one, in double precision.
    assertEquals(fit.chiSquare(), chiSquare, 1e-6 * fit.chiSquare());
    assertEquals(fit.chiSquarePriors(), chiSquarePriors, 1e-9);
    double[] step = MatrixUtils.createRealMatrix(fit.covariance()).operate(slope);
    double[] sd =
        IntStream.range(0, n).mapToDouble(k -> Math.sqrt(fit.covariance()[k][k])).toArray();
    RealMatrix scaled = MatrixUtils.createRealMatrix(curvature);
    for (int k = 0; k < n; k++) {
      for (int j = 0; j < n; j++) {
        scaled.multiplyEntry(k, j, sd[k] * sd[j]);
      }
    }
    RealMatrix correlation = new QRDecomposition(scaled).getSolver().getInverse();
    for (int k = 0; k < n; k++) {
      // Model values round at some 1e-13 of themselves, which is 1e-9 of the noise here; a poorly
      // determined parameter magnifies that by its standard deviation over the one it would have
      // with all others known, up to 4,000: 4e-6 in all.
      assertEquals(0, step[k] / sd[k], 1e-5, names.get(k));
      for (int j = 0; j < n; j++) {
        // The curvature's condition number, squared from the Jacobian's, is up to 5e8: rounding
        // leaves 1e-7.
        assertEquals(
            fit.covariance()[k][j] / sd[k] / sd[j],
            correlation.getEntry(k, j),
            1e-6,
            names.get(k) + ", " + names.get(j));
      }
    }
  }
}
