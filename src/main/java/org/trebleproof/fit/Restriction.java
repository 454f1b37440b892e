package org.trebleproof.fit;

import java.util.List;
import java.util.stream.IntStream;

/**
 * A residual model as a function of some of its coordinates, the others held where they are. A
 * coordinate that the residuals do not depend on does not belong in a search: without a prior its
 * column is rounding noise, along which a search runs away and ends where it began.
 */
public final class Restriction implements ResidualModel {

  private final ResidualModel whole;
  private final double[] held;
  private final int[] free;

  /**
   * @param whole the model in all coordinates
   * @param at all coordinates; those that are not free stay there
   * @param free which coordinates vary, in the order in which they are searched
   */
  public Restriction(ResidualModel whole, double[] at, int[] free) {
    this.whole = whole;
    this.held = at.clone();
    this.free = free.clone();
  }

  /** The free ones of all parameters, started where the coordinates are held. */
  public List<Parameter> of(List<Parameter> all) {
    return IntStream.of(free).mapToObj(i -> all.get(i).startedAt(held[i])).toList();
  }

  /** All coordinates, from the free ones. */
  public double[] whole(double[] x) {
    double[] all = held.clone();
    for (int i = 0; i < free.length; i++) {
      all[free[i]] = x[i];
    }
    return all;
  }

  @Override
  public int size() {
    return whole.size();
  }

  @Override
  public void evaluate(double[] x, double[] residual, double[][] jacobian) {
    if (jacobian == null) {
      whole.evaluate(whole(x), residual, null);
      return;
    }
    double[][] full = new double[size()][held.length];
    whole.evaluate(whole(x), residual, full);
    pick(full, jacobian);
  }

  @Override
  public int parts() {
    return whole.parts();
  }

  @Override
  public int size(int part) {
    return whole.size(part);
  }

  @Override
  public void evaluate(int part, double[] x, double[] residual, double[][] jacobian) {
    double[][] full = jacobian == null ? null : new double[size(part)][held.length];
    whole.evaluate(part, whole(x), residual, full);
    if (full != null) {
      pick(full, jacobian);
    }
  }

  private void pick(double[][] full, double[][] jacobian) {
    for (int r = 0; r < full.length; r++) {
      for (int i = 0; i < free.length; i++) {
        jacobian[r][i] = full[r][free[i]];
      }
    }
  }
}
