package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;

/**
 * Draws from what is known after a fit in its true shape, where the normal approximation is only
 * the place to start from. Each step slices an ellipse through the present point and one drawn from
 * a heavy-tailed version of the approximation; no step size is tuned and every step moves. Method:
 * R. Nishihara, I. Murray, R. P. Adams, Parallel MCMC with generalized elliptical slice sampling,
 * J. Mach. Learn. Res. 15 (2014), after Murray, Adams and MacKay (2010); from memory.
 */
public final class EllipticalSlice {

  /** Degrees of freedom of the heavy-tailed approximation. */
  private static final double TAILS = 6;

  /** Steps that let the chain forget its start. */
  private static final int FORGET = 20;

  private final Posterior base;
  private final ToDoubleFunction<double[]> logDensity;
  private final SplittableRandom random;
  private final int size;

  /**
   * @param base normal approximation
   * @param logDensity of the coordinates, up to a constant
   * @param seed of the draws
   */
  public EllipticalSlice(Posterior base, ToDoubleFunction<double[]> logDensity, long seed) {
    this.base = base;
    this.logDensity = logDensity;
    this.random = new SplittableRandom(seed);
    this.size = base.parameters().size();
  }

  /**
   * Draws.
   *
   * @param count how many
   * @param steps of the chain between one and the next
   * @return coordinates of each
   */
  public List<double[]> draws(int count, int steps) {
    double[] z = new double[size];
    double now = ratio(z);
    List<double[]> draws = new ArrayList<>(count);
    for (int i = -FORGET; i < count * steps; i++) {
      double[] other = companion(z);
      double threshold = now + Math.log(1 - random.nextDouble());
      double angle = 2 * Math.PI * random.nextDouble();
      double least = angle - 2 * Math.PI;
      double most = angle;
      double[] next = turned(z, other, angle);
      double then = ratio(next);
      while (!(then > threshold) && most - least > 1e-9) {
        if (angle < 0) {
          least = angle;
        } else {
          most = angle;
        }
        angle = least + (most - least) * random.nextDouble();
        next = turned(z, other, angle);
        then = ratio(next);
      }
      if (then > threshold) {
        z = next;
        now = then;
      }
      if (i >= 0 && i % steps == steps - 1) {
        draws.add(base.at(z));
      }
    }
    return draws;
  }

  private static double[] turned(double[] a, double[] b, double angle) {
    double c = Math.cos(angle);
    double s = Math.sin(angle);
    double[] turned = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      turned[i] = c * a[i] + s * b[i];
    }
    return turned;
  }

  /** A point of the heavy-tailed approximation, of the scale that goes with the present one. */
  private double[] companion(double[] z) {
    double square = 0;
    for (int i = 0; i < size + TAILS; i++) {
      double g = random.nextGaussian();
      square += g * g;
    }
    double scale = Math.sqrt((TAILS + norm(z)) / square);
    double[] other = new double[size];
    for (int i = 0; i < size; i++) {
      other[i] = scale * random.nextGaussian();
    }
    return other;
  }

  private static double norm(double[] z) {
    double sum = 0;
    for (double v : z) {
      sum += v * v;
    }
    return sum;
  }

  /** Logarithm of the density over that of the approximation. */
  private double ratio(double[] z) {
    double density = logDensity.applyAsDouble(base.at(z));
    return Double.isNaN(density)
        ? Double.NEGATIVE_INFINITY
        : density + (TAILS + size) / 2 * Math.log1p(norm(z) / TAILS);
  }
}
