package org.trebleproof.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.GuitarWiring;
import org.trebleproof.circuit.Landmark;
import org.trebleproof.circuit.Probe;

/** Fits of a simulated pickup against the Cramer-Rao bound. */
class PickupEfficiencyTest {
  private static final long SEED = 20261125;

  /** Standard deviation of the real and of the imaginary part of ln Z. */
  private static final double NOISE = 1e-3;

  private static final Circuit PICKUP =
      GuitarWiring.bare()
          .withAcross(GuitarWiring.Clipped.Kind.RESISTOR, "loss")
          .circuit(CoilModel.IDEAL, "pickup");

  private static final double[] HZ =
      IntStream.range(0, 181).mapToDouble(i -> 20 * Math.pow(1000, i / 180.0)).toArray();

  private static final double[] TRUTH =
      PICKUP.parameters().stream().mapToDouble(PickupEfficiencyTest::truth).toArray();

  private static double truth(String name) {
    return switch (name) {
      case "pickup.resistance" -> 5700;
      case "pickup.inductance" -> 2.4;
      case "pickup.capacitance" -> 120e-12;
      case "loss" -> 800e3;
      default -> throw new IllegalArgumentException(name);
    };
  }

  /** ln Z of the circuit against ln Z of the true one plus noise. */
  private record LogImpedance(double[] re, double[] im) implements ResidualModel {

    static LogImpedance measured(Random random) {
      Analysis z = PICKUP.evaluate(HZ, TRUTH, Probe.JACK_IMPEDANCE);
      double[] re = new double[HZ.length];
      double[] im = new double[HZ.length];
      for (int i = 0; i < HZ.length; i++) {
        re[i] = Math.log(Math.hypot(z.re()[i], z.im()[i])) + NOISE * random.nextGaussian();
        im[i] = Math.atan2(z.im()[i], z.re()[i]) + NOISE * random.nextGaussian();
      }
      return new LogImpedance(re, im);
    }

    @Override
    public int size() {
      return 2 * HZ.length;
    }

    @Override
    public void evaluate(double[] x, double[] residual, double[][] jacobian) {
      double[] values = new double[x.length];
      for (int j = 0; j < x.length; j++) {
        values[j] = Math.exp(x[j]);
      }
      Analysis z = PICKUP.analyse(HZ, values, Probe.JACK_IMPEDANCE);
      for (int i = 0; i < HZ.length; i++) {
        double a = z.re()[i];
        double b = z.im()[i];
        double power = a * a + b * b;
        residual[2 * i] = (0.5 * Math.log(power) - re[i]) / NOISE;
        residual[2 * i + 1] = (Math.atan2(b, a) - im[i]) / NOISE;
        for (int j = 0; jacobian != null && j < x.length; j++) {
          double da = z.dRe()[j][i];
          double db = z.dIm()[j][i];
          jacobian[2 * i][j] = (a * da + b * db) / power / NOISE;
          jacobian[2 * i + 1][j] = (a * db - b * da) / power / NOISE;
        }
      }
    }
  }

  private static List<Parameter> parameters() {
    List<Parameter> parameters = new ArrayList<>();
    for (int j = 0; j < TRUTH.length; j++) {
      parameters.add(Parameter.free(PICKUP.parameters().get(j), TRUTH[j]));
    }
    return parameters;
  }

  private static int slot(String name) {
    return PICKUP.parameters().indexOf(name);
  }

  /**
   * The bound var >= sigma^2 (J'J)^-1 (Kay, Fundamentals of Statistical Signal Processing:
   * Estimation Theory (1993), chapter 3) of this coil, calculated with NumPy from Z = 1 / (1 / (R +
   * jwL) + jwC + 1 / Re) in closed form; four figures.
   */
  @Test
  void theBoundIsThatOfTheClosedForm() {
    double[] truth = parameters().stream().mapToDouble(Parameter::start).toArray();
    Posterior bound =
        Posterior.of(
            LeastSquares.at(parameters(), LogImpedance.measured(new Random(SEED)), truth), 1);
    int r = slot("pickup.resistance");
    int l = slot("pickup.inductance");
    int c = slot("pickup.capacitance");
    int loss = slot("loss");
    assertEquals(1.145e-4, bound.sd(r), 5e-8);
    assertEquals(1.041e-4, bound.sd(l), 5e-8);
    assertEquals(1.203e-4, bound.sd(c), 5e-8);
    assertEquals(4.364e-4, bound.sd(loss), 5e-8);
    assertEquals(-0.794, bound.covariance(l, c) / (bound.sd(l) * bound.sd(c)), 5e-4);
  }

  @Test
  void fitsReachTheBoundAndSaySo() {
    int n = TRUTH.length;
    double[] truth = parameters().stream().mapToDouble(Parameter::start).toArray();
    double resonance = Math.log(Landmark.peak(PICKUP, TRUTH).orElseThrow().hz());
    double[][] errors = new double[n + 1][Deviates.RUNS];
    IntStream.range(0, Deviates.RUNS)
        .parallel()
        .forEach(
            run -> {
              Solution s =
                  new LeastSquares(1e-8, 50)
                      .solve(parameters(), LogImpedance.measured(new Random(SEED + 7919L * run)));
              Posterior p = Posterior.of(s, 1);
              for (int j = 0; j < n; j++) {
                errors[j][run] = (s.x()[j] - truth[j]) / p.sd(j);
              }
              double[] values = new double[n];
              for (int j = 0; j < n; j++) {
                values[j] = s.parameters().get(j).value(s.x()[j]);
              }
              Landmark peak = Landmark.peak(PICKUP, values).orElseThrow();
              errors[n][run] = (Math.log(peak.hz()) - resonance) / p.sd(peak.lnHzGradient());
            });
    for (int j = 0; j < n; j++) {
      new Deviates(PICKUP.parameters().get(j), errors[j]).assertStandardNormal(SEED);
    }
    new Deviates("resonance", errors[n]).assertStandardNormal(SEED);
  }
}
