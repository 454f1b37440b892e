package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * An immutable netlist: elements between numbered nodes (0 is ground), with two ports to ground,
 * the jack and the pickup's hot end.
 *
 * <p>Analysis is nodal: at each frequency the node voltages v solve Y v = i, and any output o = w'v
 * has d o / d p = m' (d i / d p - (d Y / d p) v), where Y m = w: one factorisation and two
 * solutions give the value and its derivative by every parameter (adjoint network, Director and
 * Rohrer, IEEE Trans. Circuit Theory 16 (1969), from memory). An induced voltage lies in series
 * with its winding, so its current source depends on the winding's parameters and the derivative
 * goes through it.
 */
public final class Circuit {
  private final List<Element> elements;
  private final List<String> parameters;
  private final Branches[] branches;
  private final int size;
  private final int jack;
  private final int pickup;
  private final boolean driven;

  /**
   * A netlist.
   *
   * @param elements at least one; their nodes are 0 to some n without gaps
   * @param jack node of the jack's hot contact
   * @param pickup node of the pickup's hot end
   */
  public Circuit(List<Element> elements, int jack, int pickup) {
    this.elements = List.copyOf(elements);
    this.jack = jack;
    this.pickup = pickup;
    Map<String, Integer> slots = new LinkedHashMap<>();
    for (Element element : this.elements) {
      for (String name : element.parameters()) {
        slots.putIfAbsent(name, slots.size());
      }
    }
    this.parameters = List.copyOf(slots.keySet());
    this.branches =
        this.elements.stream().map(e -> Branches.of(e, slots::get)).toArray(Branches[]::new);
    List<Integer> nodes = this.elements.stream().flatMap(e -> e.nodes().stream()).toList();
    this.size = nodes.isEmpty() ? 0 : Collections.max(nodes);
    for (int node = 1; node <= size; node++) {
      if (!nodes.contains(node)) {
        throw new IllegalArgumentException("the netlist leaves out node " + node);
      }
    }
    if (nodes.stream().anyMatch(n -> n < 0)
        || jack < 1
        || jack > size
        || pickup < 1
        || pickup > size) {
      throw new IllegalArgumentException("the jack and the pickup need nodes of the netlist");
    }
    this.driven = this.elements.stream().anyMatch(Element.SeriesDrive.class::isInstance);
  }

  /** The elements. */
  public List<Element> elements() {
    return elements;
  }

  /** Names of the parameters, one per slot, in order of first use. */
  public List<String> parameters() {
    return parameters;
  }

  /** Node of the jack. */
  public int jack() {
    return jack;
  }

  /** Node of the pickup's hot end. */
  public int pickup() {
    return pickup;
  }

  /**
   * Values and their derivatives.
   *
   * @param hz frequencies, 0 or more [Hz]
   * @param values by slot, positive, SI
   */
  public Analysis analyse(double[] hz, double[] values, Probe probe) {
    return analyse(hz, values, probe, true);
  }

  /** Values only, in an {@link Analysis} without derivative rows. */
  public Analysis evaluate(double[] hz, double[] values, Probe probe) {
    return analyse(hz, values, probe, false);
  }

  private Analysis analyse(double[] hz, double[] values, Probe probe, boolean sensitivities) {
    check(values, probe);
    int count = hz.length;
    double[] omega = new double[count];
    for (int k = 0; k < count; k++) {
      omega[k] = 2 * Math.PI * hz[k];
    }
    List<Branches> active = new ArrayList<>(branches.length);
    List<BranchTable> tables = new ArrayList<>(branches.length);
    for (Branches b : branches) {
      if (!b.drive() || probe == Probe.DRIVE_TO_JACK) {
        active.add(b);
        tables.add(b.table(omega, values, sensitivities));
      }
    }
    int slots = sensitivities ? parameters.size() : 0;
    Analysis result =
        new Analysis(
            hz,
            new double[count],
            new double[count],
            new double[slots][count],
            new double[slots][count]);
    Branches[] used = active.toArray(Branches[]::new);
    BranchTable[] filled = tables.toArray(BranchTable[]::new);
    if (ParallelSolution.serves(used, size)) {
      ParallelSolution.run(used, filled, probe, result);
    } else {
      new NodalSolution(used, filled, size, port(probe)).run(probe, result);
    }
    if (probe == Probe.JACK_ADMITTANCE || probe == Probe.PICKUP_ADMITTANCE) {
      invert(result);
    }
    return result;
  }

  private int port(Probe probe) {
    return probe == Probe.PICKUP_IMPEDANCE || probe == Probe.PICKUP_ADMITTANCE ? pickup : jack;
  }

  private void check(double[] values, Probe probe) {
    if (values.length != parameters.size()) {
      throw new IllegalArgumentException(
          "the circuit has " + parameters.size() + " parameters, not " + values.length);
    }
    for (int i = 0; i < values.length; i++) {
      if (!(values[i] > 0 && values[i] < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException(
            parameters.get(i) + " needs a positive value, not " + values[i]);
      }
    }
    if (probe == Probe.DRIVE_TO_JACK && !driven) {
      throw new IllegalArgumentException("the circuit has no series drive");
    }
  }

  /** Turns impedances into admittances: Y = 1/Z, dY = -Y^2 dZ. */
  private static void invert(Analysis a) {
    for (int k = 0; k < a.hz().length; k++) {
      double zRe = a.re()[k];
      double zIm = a.im()[k];
      double norm = 1 / (zRe * zRe + zIm * zIm);
      double yRe = zRe * norm;
      double yIm = -zIm * norm;
      a.re()[k] = yRe;
      a.im()[k] = yIm;
      double sRe = yIm * yIm - yRe * yRe;
      double sIm = -2 * yRe * yIm;
      for (int p = 0; p < a.dRe().length; p++) {
        double dRe = a.dRe()[p][k];
        double dIm = a.dIm()[p][k];
        a.dRe()[p][k] = sRe * dRe - sIm * dIm;
        a.dIm()[p][k] = sRe * dIm + sIm * dRe;
      }
    }
  }
}
