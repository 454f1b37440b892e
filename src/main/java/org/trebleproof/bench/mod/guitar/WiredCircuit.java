package org.trebleproof.bench.mod.guitar;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.Analysis;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.circuit.Probe;
import org.trebleproof.quantity.Refusal;

/** The circuit of a layout, its parameters found in what is known. */
public final class WiredCircuit {
  /** Makes a loss resistance so large, or a loss so short, that nothing is left of it. */
  private static final double NO_LOSS = 1e9;

  private final Circuit circuit;
  private final int[] index;
  private final double[] factor;

  private WiredCircuit(Circuit circuit, int[] index, double[] factor) {
    this.circuit = circuit;
    this.index = index;
    this.factor = factor;
  }

  public static WiredCircuit of(SignalChain chain, Layout layout) {
    return of(chain, layout, false);
  }

  /**
   * @param lossless whether the coils are taken without core and dielectric loss
   */
  public static WiredCircuit of(SignalChain chain, Layout layout, boolean lossless) {
    return of(chain, layout, lossless, pot -> Optional.empty());
  }

  /**
   * @param odds value of each pot's wiper by its name among what is known, the resistance below it
   *     over that above; empty where the pot stands as the layout says
   */
  public static WiredCircuit of(
      SignalChain chain, Layout layout, Function<Slot, Optional<String>> odds) {
    return of(chain, layout, false, odds);
  }

  private static WiredCircuit of(
      SignalChain chain, Layout layout, boolean lossless, Function<Slot, Optional<String>> odds) {
    Layout.Unknowns turned =
        new Layout.Unknowns() {
          @Override
          public Optional<String> wiper(Slot pot) {
            return odds.apply(pot);
          }
        };
    Circuit circuit = layout.harness(pickup -> coil(chain, pickup), turned).circuit();
    List<String> names = circuit.parameters();
    int[] index = new int[names.size()];
    double[] factor = new double[names.size()];
    for (int i = 0; i < index.length; i++) {
      String name = names.get(i);
      Optional<String> whole = Layout.wholeOf(name);
      String base = whole.orElse(name);
      index[i] = chain.knowledge().index(base);
      if (index[i] < 0) {
        throw new Refusal("No value is known for " + base + ": state it.");
      }
      factor[i] = 1;
      CoilParameter.Role role = role(chain, base);
      if (role != null && whole.isPresent()) {
        factor[i] *= halved(role);
      }
      if (role != null && lossless) {
        factor[i] *= withoutLoss(role);
      }
    }
    return new WiredCircuit(circuit, index, factor);
  }

  private static CoilModel coil(SignalChain chain, String pickup) {
    CoilModel coil = chain.coils().get(pickup);
    if (coil == null) {
      throw new Refusal(
          "Nothing is known of the pickup " + Refusal.quote(pickup) + ": measure it.");
    }
    return coil;
  }

  private static CoilParameter.Role role(SignalChain chain, String parameter) {
    for (var coil : chain.coils().entrySet()) {
      for (CoilParameter p : coil.getValue().parameters()) {
        if (p.in(coil.getKey()).equals(parameter)) {
          return p.role();
        }
      }
    }
    return null;
  }

  /** Two equal coils in series that share no flux: each has half the impedance. */
  private static double halved(CoilParameter.Role role) {
    return switch (role) {
      case RESISTANCE,
          INDUCTANCE,
          LOSS_RESISTANCE,
          SPLIT_INDUCTANCE,
          CORE_INDUCTANCE,
          COVER_INDUCTANCE ->
          0.5;
      case CAPACITANCE -> 2;
      default -> 1;
    };
  }

  private static double withoutLoss(CoilParameter.Role role) {
    return switch (role) {
      case LOSS_RESISTANCE -> NO_LOSS;
      case SPLIT_TIME, CORE_TIME, COVER_TIME, LOSS_TANGENT -> 1 / NO_LOSS;
      default -> 1;
    };
  }

  public Circuit circuit() {
    return circuit;
  }

  /** Whether a known value takes part. */
  public boolean uses(int known) {
    for (int i : index) {
      if (i == known) {
        return true;
      }
    }
    return false;
  }

  /** Values of the circuit's parameters at these logarithms. */
  public double[] values(double[] log) {
    double[] values = new double[index.length];
    for (int i = 0; i < index.length; i++) {
      values[i] = Math.exp(log[index[i]]) * factor[i];
    }
    return values;
  }

  Analysis transfer(double[] log, double[] hz) {
    return circuit.evaluate(hz, values(log), Probe.EMF_TO_JACK);
  }

  /** Squared magnitude of jack voltage over induced voltage. */
  public double[] powers(double[] log, double[] hz) {
    Analysis a = transfer(log, hz);
    double[] power = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      power[i] = a.re()[i] * a.re()[i] + a.im()[i] * a.im()[i];
    }
    return power;
  }

  /**
   * Levels with their slopes.
   *
   * @param decibel jack voltage over induced voltage at each frequency [dB]
   * @param gradient by frequency and known value, per unit of its logarithm [dB]; empty where it
   *     was not asked for
   */
  public record Levels(double[] decibel, double[][] gradient) {}

  /** Levels without their slopes. */
  public Levels levels(double[] log, double[] hz) {
    double[] decibel = powers(log, hz);
    for (int i = 0; i < decibel.length; i++) {
      decibel[i] = 10 * Math.log10(decibel[i]);
    }
    return new Levels(decibel, new double[0][]);
  }

  /** Levels with their slopes over the logarithms of everything known. */
  public Levels slopes(double[] log, double[] hz) {
    Analysis a = circuit.analyse(hz, values(log), Probe.EMF_TO_JACK);
    double[] decibel = new double[hz.length];
    double[][] gradient = new double[hz.length][log.length];
    for (int i = 0; i < hz.length; i++) {
      double power = a.re()[i] * a.re()[i] + a.im()[i] * a.im()[i];
      decibel[i] = 10 * Math.log10(power);
      for (int s = 0; s < index.length; s++) {
        double d = (a.re()[i] * a.dRe()[s][i] + a.im()[i] * a.dIm()[s][i]) / power;
        gradient[i][index[s]] += 20 / Math.log(10) * d;
      }
    }
    return new Levels(decibel, gradient);
  }
}
