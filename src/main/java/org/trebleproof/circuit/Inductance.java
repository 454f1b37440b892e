package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;

/**
 * One part of a winding's inductance, in series with the others. Below, s = j w tau with w the
 * angular frequency [rad/s] and tau a time constant [s].
 */
public sealed interface Inductance {

  /** The parameters, the inductance [H] first. */
  List<String> parameters();

  /** Asks what depends on the kind; whoever asks has an answer for every kind. */
  <R> R as(Kinds<R> kinds);

  /** An answer for every kind of inductance: another kind does not compile until all know it. */
  interface Kinds<R> {
    R plain(Plain part);

    R lossResistor(LossResistor part);

    R split(Split part);

    R solidCore(SolidCore part);

    R departure(Departure part);
  }

  /** Loss-free: impedance j w L. */
  record Plain(String inductance) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance);
    }

    @Override
    public <R> R as(Kinds<R> kinds) {
      return kinds.plain(this);
    }
  }

  /** Parallel to a resistor Re [ohm]: impedance j w L / (1 + j w L / Re). */
  record LossResistor(String inductance, String resistance) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance, resistance);
    }

    @Override
    public <R> R as(Kinds<R> kinds) {
      return kinds.lossResistor(this);
    }
  }

  /**
   * Parallel to a resistor of L / tau: impedance j w L / (1 + s). It is also what a shorted turn of
   * time constant tau, coupled by k, makes of a winding: with a winding of inductance Lw, L = k^2
   * Lw here and (1 - k^2) Lw is left loss-free (theory of the transformer, reflected impedance).
   */
  record Split(String inductance, String time) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance, time);
    }

    @Override
    public <R> R as(Kinds<R> kinds) {
      return kinds.split(this);
    }
  }

  /**
   * Flux through a long solid conducting cylinder: impedance j w L F(s) with F as in {@link
   * SolidCylinder}. tau = conductivity x permeability x radius^2.
   */
  record SolidCore(String inductance, String time) implements Inductance {
    @Override
    public List<String> parameters() {
      return List.of(inductance, time);
    }

    @Override
    public <R> R as(Kinds<R> kinds) {
      return kinds.solidCore(this);
    }
  }

  /**
   * What a simple model leaves out, as small relaxations about it: impedance j w L sum_k (v_k - 1)
   * / (1 + j w t_k), with fixed times t_k and factors v_k near 1, so that a part of either sign has
   * a positive parameter. A sum of relaxations obeys causality whatever its terms.
   *
   * @param inductance parameter L [H], the loss-free inductance beside it
   * @param factors parameters v_k
   * @param times t_k [s]
   */
  record Departure(String inductance, List<String> factors, List<Double> times)
      implements Inductance {
    public Departure {
      factors = List.copyOf(factors);
      times = List.copyOf(times);
      if (factors.size() != times.size()) {
        throw new IllegalArgumentException("a departure needs one factor per time");
      }
    }

    @Override
    public List<String> parameters() {
      List<String> all = new ArrayList<>();
      all.add(inductance);
      all.addAll(factors);
      return List.copyOf(all);
    }

    @Override
    public <R> R as(Kinds<R> kinds) {
      return kinds.departure(this);
    }
  }
}
