package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One element of a netlist. Nodes are numbers, 0 is ground. Values are not held here: an element
 * names the parameters it takes them from, so one physical part in two places is one parameter.
 * Every parameter is a positive value in SI units.
 */
public sealed interface Element {

  /** The parameters, in the order in which the element is described. */
  List<String> parameters();

  /** The nodes the element touches, ground included. */
  List<Integer> nodes();

  /**
   * A resistor.
   *
   * @param from node
   * @param to node
   * @param resistance parameter [ohm]
   * @param share the part of that resistance between the nodes, above 0 and up to 1: one side of a
   *     pot's wiper
   */
  record Resistor(int from, int to, String resistance, double share) implements Element {
    public Resistor {
      if (!(share > 0 && share <= 1)) {
        throw new IllegalArgumentException("a resistor's share is above 0 and up to 1: " + share);
      }
    }

    /** The whole resistance. */
    public Resistor(int from, int to, String resistance) {
      this(from, to, resistance, 1);
    }

    @Override
    public List<String> parameters() {
      return List.of(resistance);
    }

    @Override
    public List<Integer> nodes() {
      return List.of(from, to);
    }
  }

  /**
   * One side of a pot whose wiper's place is itself a parameter.
   *
   * @param from node
   * @param to node
   * @param resistance parameter, of the whole pot [ohm]
   * @param odds parameter, the resistance below the wiper over that above, pure number
   * @param above which side this is
   */
  record WiperResistor(int from, int to, String resistance, String odds, boolean above)
      implements Element {

    /** The share of the resistance on this side. */
    double share(double oddsValue) {
      return above ? 1 / (1 + oddsValue) : oddsValue / (1 + oddsValue);
    }

    @Override
    public List<String> parameters() {
      return List.of(resistance, odds);
    }

    @Override
    public List<Integer> nodes() {
      return List.of(from, to);
    }
  }

  /**
   * A loss-free capacitor.
   *
   * @param from node
   * @param to node
   * @param capacitance parameter [F]
   */
  record Capacitor(int from, int to, String capacitance) implements Element {
    @Override
    public List<String> parameters() {
      return List.of(capacitance);
    }

    @Override
    public List<Integer> nodes() {
      return List.of(from, to);
    }
  }

  /**
   * A capacitor with dielectric loss. Either C (1 - j tan delta), the loss tangent and the
   * capacitance the same at every frequency, which is how losses are usually quoted; or of constant
   * phase, C (jw/w0)^-e with e = 2/pi atan(tan delta) and C quoted at 1 kHz, which is the same loss
   * tangent with the fall of capacitance that causality demands of it (Jonscher, Nature 267 (1977)
   * 673, from memory).
   *
   * @param from node
   * @param to node
   * @param capacitance parameter [F]
   * @param lossTangent parameter, pure number
   * @param constantPhase which of the two
   */
  record LossyCapacitor(
      int from, int to, String capacitance, String lossTangent, boolean constantPhase)
      implements Element {

    /** Where the capacitance of constant phase is quoted [rad/s]. */
    static final double QUOTED = 2 * Math.PI * 1000;

    @Override
    public List<String> parameters() {
      return List.of(capacitance, lossTangent);
    }

    @Override
    public List<Integer> nodes() {
      return List.of(from, to);
    }
  }

  /**
   * A resistor and a capacitor in series with nothing else at their junction: the branch of a tone
   * control. One element, so the junction costs no node.
   *
   * @param from node
   * @param to node
   * @param resistance parameter [ohm]
   * @param share the part of that resistance in circuit, above 0 and up to 1
   * @param capacitance parameter [F]
   */
  record ResistorCapacitor(int from, int to, String resistance, double share, String capacitance)
      implements Element {
    public ResistorCapacitor {
      if (!(share > 0 && share <= 1)) {
        throw new IllegalArgumentException("a resistor's share is above 0 and up to 1: " + share);
      }
    }

    @Override
    public List<String> parameters() {
      return List.of(resistance, capacitance);
    }

    @Override
    public List<Integer> nodes() {
      return List.of(from, to);
    }
  }

  /**
   * An input's resistance to ground, part of it behind a coupling capacitor: admittance g (1 - s /
   * (1 + j f / fc)) with s = o / (1 + o). With all of it behind the capacitor (s = 1) this is a
   * resistor and a capacitor in series whose corner is fc.
   *
   * @param to node
   * @param resistance parameter 1 / g [ohm]
   * @param corner parameter fc [Hz]
   * @param aheadOdds parameter o, the conductance behind the capacitor over that ahead of it
   */
  record CoupledInput(int to, String resistance, String corner, String aheadOdds)
      implements Element {
    @Override
    public List<String> parameters() {
      return List.of(resistance, corner, aheadOdds);
    }

    @Override
    public List<Integer> nodes() {
      return List.of(0, to);
    }
  }

  /**
   * A winding with the voltage induced in it.
   *
   * @param from cold end
   * @param to hot end
   * @param winding its impedance
   * @param emfShare voltage induced in this winding, as a share of the pickup's whole induced
   *     voltage; raises {@code to} over {@code from}
   */
  record Coil(int from, int to, Winding winding, double emfShare) implements Element {
    @Override
    public List<String> parameters() {
      return winding.parameters();
    }

    @Override
    public List<Integer> nodes() {
      return List.of(from, to);
    }
  }

  /**
   * Small relaxations of the flux that two windings share: with d = sum_k (v_k - 1) / (1 + j w
   * t_k), La d and Lb d in the windings and sqrt(La Lb) d between them, La and Lb their loss-free
   * inductances. An eddy current that links both windings alike has this form (theory of the
   * transformer, reflected impedance).
   *
   * @param factors parameters v_k
   * @param times t_k [s]
   */
  record CommonDeparture(List<String> factors, List<Double> times) {
    public CommonDeparture {
      factors = List.copyOf(factors);
      times = List.copyOf(times);
      if (factors.size() != times.size()) {
        throw new IllegalArgumentException("a departure needs one factor per time");
      }
    }
  }

  /**
   * Two windings that share flux. Their mutual inductance is k sqrt(La Lb), La and Lb the loss-free
   * inductances of the two windings (every {@link Inductance.Plain} of each added), so the pair is
   * passive for every k below 1. The coupling is given by its odds q = k / (1 - k), which makes it
   * positive and keeps k below 1.
   *
   * @param first first winding, aiding the second
   * @param second second winding
   * @param couplingOdds parameter q, pure number
   * @param common what metal that both windings see takes from their flux; empty for none
   * @param inducedOdds parameter: voltage induced in the first winding over that in the second,
   *     whose sum is what the windings say; empty where it divides as they say
   */
  record CoupledCoils(
      Coil first,
      Coil second,
      String couplingOdds,
      Optional<CommonDeparture> common,
      Optional<String> inducedOdds)
      implements Element {
    public CoupledCoils {
      if (first.winding().plainInductance().isEmpty()
          || second.winding().plainInductance().isEmpty()) {
        throw new IllegalArgumentException("coupled windings need a loss-free inductance each");
      }
    }

    @Override
    public List<String> parameters() {
      List<String> all = new ArrayList<>(first.parameters());
      all.addAll(second.parameters());
      all.add(couplingOdds);
      common.ifPresent(c -> all.addAll(c.factors()));
      inducedOdds.ifPresent(all::add);
      return List.copyOf(all);
    }

    @Override
    public List<Integer> nodes() {
      return List.of(first.from, first.to, second.from, second.to);
    }
  }

  /**
   * The resistor through which an ideal source drives the jack. It belongs to the circuit only
   * while that source plays: for every probe but {@link Probe#DRIVE_TO_JACK} the lead is unplugged.
   *
   * @param to node driven
   * @param resistance parameter [ohm]
   * @param across parameter: stray capacitance from end to end of the resistor [F]; empty for none
   */
  record SeriesDrive(int to, String resistance, Optional<String> across) implements Element {
    /** Without a stray capacitance. */
    public SeriesDrive(int to, String resistance) {
      this(to, resistance, Optional.empty());
    }

    @Override
    public List<String> parameters() {
      return across.map(c -> List.of(resistance, c)).orElseGet(() -> List.of(resistance));
    }

    @Override
    public List<Integer> nodes() {
      return List.of(0, to);
    }
  }
}
