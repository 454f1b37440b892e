package org.trebleproof.bench.mod.identify;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.IntFunction;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.Derived;
import org.trebleproof.circuit.Probe;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;

/**
 * The loss of a coil's inductance as times: what its resistance has risen by at a frequency, over
 * the square of the angular frequency and the inductance.
 *
 * @param logarithms of those times at {@link #HZ} [ln s]
 * @param covariance of the logarithms
 * @param time inductance over resistance at low frequency [s]
 */
record LossTimes(double[] logarithms, double[][] covariance, double time) {

  /** Where cores, covers and shorted turns differ most. */
  static final double[] HZ = {300, 800, 2000, 5000};

  /** The one that a sentence names. */
  static final int TOLD = 2;

  /** Shorter is nothing [s]. */
  private static final double LEAST = 1e-7;

  /** What lumped models of distributed windings leave open, as a standard deviation. */
  private static final double LUMPED = 0.12;

  /**
   * Of a coil whose losses were measured; empty where they were typed in or are not in the model.
   */
  static Optional<LossTimes> of(SignalChain chain, String pickup) {
    boolean typed =
        chain.coils().get(pickup).parameters().stream()
            .anyMatch(p -> chain.knowledge().markings().containsKey(p.in(pickup)));
    return typed || chain.coils().get(pickup).equals(CoilModel.IDEAL)
        ? Optional.empty()
        : Optional.of(measured(chain, pickup));
  }

  /** The one that a sentence names. */
  Estimate told() {
    return Estimate.logNormal(
        Math.exp(logarithms[TOLD]), Math.sqrt(covariance[TOLD][TOLD]), Unit.SECOND, Known.DERIVED);
  }

  private static LossTimes measured(SignalChain chain, String pickup) {
    LossTimes chosen = one(chain, pickup);
    int n = HZ.length;
    double[][] covariance = new double[n][n];
    // what the standing models disagree on is not known
    for (SignalChain model : chain.models()) {
      LossTimes here = one(model, pickup);
      for (int a = 0; a < n; a++) {
        for (int b = 0; b < n; b++) {
          double off = here.logarithms[a] - chosen.logarithms[a];
          double offToo = here.logarithms[b] - chosen.logarithms[b];
          covariance[a][b] += model.weight() * (here.covariance[a][b] + off * offToo);
        }
      }
    }
    for (int a = 0; a < n; a++) {
      covariance[a][a] += LUMPED * LUMPED;
    }
    return new LossTimes(chosen.logarithms, covariance, chosen.time);
  }

  private static LossTimes one(SignalChain chain, String pickup) {
    Winding winding = new Winding(chain, pickup);
    int n = HZ.length;
    double[] logarithms = new double[n];
    double[][] gradients = new double[n][];
    Derived henry = winding.henry();
    Derived ohm = winding.ohm();
    for (int k = 0; k < n; k++) {
      Derived z = winding.resistance(k + 1);
      double omega = 2 * Math.PI * HZ[k];
      double lost = Math.max(z.value() - ohm.value(), LEAST * omega * omega * henry.value());
      logarithms[k] = Math.log(lost / (omega * omega * henry.value()));
      gradients[k] = z.gradient();
      for (int p = 0; p < gradients[k].length; p++) {
        gradients[k][p] =
            (gradients[k][p] - ohm.gradient()[p]) / lost - henry.gradient()[p] / henry.value();
      }
    }
    return new LossTimes(logarithms, covariance(chain, gradients), henry.value() / ohm.value());
  }

  /** Impedance of a coil without its capacitance. */
  private static final class Winding {
    /** Low enough for a coil to be its inductance at low frequency [Hz]. */
    private static final double LOW_HZ = 40;

    private final double[] hz = new double[HZ.length + 1];
    private final double[] re = new double[hz.length];
    private final double[] im = new double[hz.length];
    private final double[][] dRe;
    private final double[][] dIm;
    private final Derived ohm;

    /**
     * Only what the terminals see is known well: a fit is free to divide the loss among the parts
     * of its model, the dielectric among them, so no part is left out but the capacitance itself.
     */
    Winding(SignalChain chain, String pickup) {
      CoilModel coil = chain.coils().get(pickup);
      List<String> names = chain.knowledge().names();
      double[] values = Arrays.stream(chain.knowledge().logMean()).map(Math::exp).toArray();
      ohm = coil.resistance(pickup, names, values);
      hz[0] = LOW_HZ;
      System.arraycopy(HZ, 0, hz, 1, HZ.length);
      Circuit circuit = new Circuit(coil.elements(pickup, 1, 2), 1, 1);
      int[] slots =
          circuit.parameters().stream().mapToInt(name -> chain.knowledge().index(name)).toArray();
      Analysis y =
          circuit.analyse(
              hz,
              Arrays.stream(slots).mapToDouble(s -> values[s]).toArray(),
              Probe.JACK_ADMITTANCE);
      dRe = new double[hz.length][values.length];
      dIm = new double[hz.length][values.length];
      for (int k = 0; k < hz.length; k++) {
        double omega = 2 * Math.PI * hz[k];
        Derived c = coil.windingCapacitance(pickup, names, values, hz[k]);
        double g = y.re()[k];
        double b = y.im()[k] - omega * c.value();
        double norm = g * g + b * b;
        re[k] = g / norm;
        im[k] = -b / norm;
        double[] dG = new double[values.length];
        double[] dB = new double[values.length];
        for (int s = 0; s < slots.length; s++) {
          dG[slots[s]] += y.dRe()[s][k];
          dB[slots[s]] += y.dIm()[s][k];
        }
        for (int p = 0; p < values.length; p++) {
          dB[p] -= omega * c.gradient()[p];
          // dz = -z^2 dy
          double zzRe = re[k] * re[k] - im[k] * im[k];
          double zzIm = 2 * re[k] * im[k];
          dRe[k][p] = -(zzRe * dG[p] - zzIm * dB[p]);
          dIm[k][p] = -(zzRe * dB[p] + zzIm * dG[p]);
        }
      }
    }

    Derived ohm() {
      return ohm;
    }

    Derived resistance(int k) {
      return new Derived(re[k], dRe[k].clone());
    }

    Derived henry() {
      double omega = 2 * Math.PI * hz[0];
      return new Derived(im[0] / omega, Arrays.stream(dIm[0]).map(d -> d / omega).toArray());
    }
  }

  private static double[][] covariance(SignalChain chain, double[][] gradients) {
    int n = gradients.length;
    double[][] log = chain.knowledge().logCovariance();
    double[][] covariance = new double[n][n];
    for (int a = 0; a < n; a++) {
      for (int i = 0; i < log.length; i++) {
        if (gradients[a][i] != 0) {
          for (int b = 0; b < n; b++) {
            for (int j = 0; j < log.length; j++) {
              covariance[a][b] += gradients[a][i] * log[i][j] * gradients[b][j];
            }
          }
        }
      }
    }
    return covariance;
  }

  /** How well other times fit these: a density that is made once and asked often. */
  Density density() {
    return new Density(covariance, logarithms);
  }

  /** A normal distribution of several dimensions, but for a constant factor. */
  static final class Density {
    private final double[] mean;
    private final double[][] root;
    private final double product;

    private Density(double[][] covariance, double[] mean) {
      this.mean = mean;
      int n = mean.length;
      root = new double[n][n];
      double diagonal = 1;
      for (int i = 0; i < n; i++) {
        for (int j = 0; j <= i; j++) {
          double sum = covariance[i][j];
          for (int k = 0; k < j; k++) {
            sum -= root[i][k] * root[j][k];
          }
          root[i][j] = i == j ? Math.sqrt(Math.max(sum, 1e-9)) : sum / root[j][j];
        }
        diagonal *= root[i][i];
      }
      product = diagonal;
    }

    /** At the logarithms of times. */
    double at(double[] logTimes) {
      int n = mean.length;
      double[] z = new double[n];
      double squares = 0;
      for (int i = 0; i < n; i++) {
        double sum = logTimes[i] - mean[i];
        for (int k = 0; k < i; k++) {
          sum -= root[i][k] * z[k];
        }
        z[i] = sum / root[i][i];
        squares += z[i] * z[i];
      }
      return Math.exp(-0.5 * squares) / product;
    }
  }

  /**
   * Logarithms of the loss times of an inductance that is lost as a model says.
   *
   * @param left what is left of it, real and imaginary part, at each of {@link #HZ}
   */
  static double[] of(IntFunction<double[]> left) {
    double[] logs = new double[HZ.length];
    for (int k = 0; k < HZ.length; k++) {
      logs[k] = Math.log(Math.max(LEAST, -left.apply(k)[1] / omega(k)));
    }
    return logs;
  }

  /** Angular frequency of one of the times [rad/s]. */
  static double omega(int k) {
    return 2 * Math.PI * HZ[k];
  }
}
