package org.trebleproof.bench.mod.identify;

import java.util.SplittableRandom;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.Array2DRowFieldMatrix;
import org.apache.commons.math3.linear.ArrayFieldVector;
import org.apache.commons.math3.linear.FieldLUDecomposition;
import org.apache.commons.math3.linear.FieldMatrix;
import org.trebleproof.quantity.Response;

/**
 * A pickup as it is wound: groups of turns, each coupled to all others the less the farther apart
 * they lie, with capacitance from group to group, about rods or bars, under a cover of two rings. A
 * short joins two places of the winding. None of the analysis' formulas is used: no lumped coil, no
 * reflected impedance; bars are flat (tanh x / x), not round.
 */
final class WoundCoil {
  private static final int GROUPS = 9;

  final CoilFamily family;
  final double shorted;
  final double ohm;
  final String story;

  private final SplittableRandom random;
  private final int groups;
  private final double[] turns;
  private final int[] bobbin;
  private final double henry;
  private final double farad;
  private final double tangent;
  private final double closeness;
  private final double between;
  private final double barShare;
  private final double barTime;
  private final double[] ringCoupling = new double[2];
  private final double[] ringTime = new double[2];
  private final int from;
  private final int to;
  private final double contact;

  WoundCoil(long seed, CoilFamily family, double share) {
    random = new SplittableRandom(seed);
    this.family = family;
    this.shorted = share;
    closeness = between(0.9, 0.97);
    boolean two = family.twoCoils();
    groups = two ? 2 * GROUPS : GROUPS;
    turns = new double[groups];
    bobbin = new int[groups];
    ohm = family.ohm() * Math.exp(0.12 * random.nextGaussian());
    henry = family.henry() * Math.exp(0.15 * random.nextGaussian());
    farad = between(70e-12, 180e-12);
    tangent = between(0.005, 0.03);
    between = between(0.02, 0.1);
    barShare = between(0.08, 0.42);
    barTime = two ? logBetween(4e-5, 1e-3) : logBetween(2e-5, 2e-4);
    boolean covered = random.nextDouble() < family.covered();
    for (int r = 0; r < 2; r++) {
      ringCoupling[r] = covered || r == 1 ? between(0.1, 0.4) / (1 + r) : 0;
      ringTime[r] = between(1.5e-6, 9e-6);
    }
    int hurt = two && random.nextBoolean() ? GROUPS : 0;
    for (int g = 0; g < groups; g++) {
      bobbin[g] = g / GROUPS;
      turns[g] = 1.0 / groups;
    }
    int first = hurt + random.nextInt(GROUPS - 1);
    if (share > 0) {
      // two groups of the hurt bobbin are as large as the short, the others share the rest
      double whole = two ? 0.5 : 1;
      for (int g = hurt; g < hurt + GROUPS; g++) {
        turns[g] = (whole - share) / (GROUPS - 2);
      }
      turns[first] = share / 2;
      turns[first + 1] = share / 2;
    }
    from = first;
    to = first + 2;
    contact = between(0, 0.05) * share * ohm;
    story =
        String.format(
            "seed %d %s %.1f %% shorted, %.0f ohm %.2f H %.0f pF, bars %.2f %.0f us, rings %.2f %.2f",
            seed,
            family,
            100 * share,
            ohm,
            henry,
            1e12 * farad,
            barShare,
            1e6 * barTime,
            ringCoupling[0],
            ringCoupling[1]);
  }

  private double between(double low, double high) {
    return low + (high - low) * random.nextDouble();
  }

  private double logBetween(double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  /** Resistance at direct current: the shorted part is bridged. */
  double meterOhm() {
    double bridged = shorted * ohm;
    return ohm - bridged + (shorted > 0 ? bridged * contact / (bridged + contact) : 0);
  }

  Complex impedance(double hz) {
    double omega = 2 * Math.PI * hz;
    Complex root = new Complex(0, omega * barTime).sqrt();
    Complex bars = root.tanh().divide(root).multiply(barShare).add(1 - barShare);
    int n = groups + 2;
    double sum = 0;
    double[][] coupled = new double[groups][groups];
    for (int a = 0; a < groups; a++) {
      for (int b = 0; b < groups; b++) {
        double near = Math.pow(closeness, Math.abs(a - b) * 3.0 / GROUPS);
        coupled[a][b] = turns[a] * turns[b] * (bobbin[a] == bobbin[b] ? near : between);
        sum += coupled[a][b];
      }
    }
    Complex[][] z = new Complex[n][n];
    for (int a = 0; a < n; a++) {
      for (int b = 0; b < n; b++) {
        Complex own = Complex.ZERO;
        if (a < groups && b < groups) {
          own = bars.multiply(new Complex(0, omega * henry / sum * coupled[a][b]));
          own = a == b ? own.add(ohm * turns[a]) : own;
        } else if (a == b) {
          own = new Complex(1 / ringTime[a - groups], omega);
        } else if (a < groups || b < groups) {
          int ring = Math.max(a, b) - groups;
          int group = Math.min(a, b);
          double one = Math.sqrt(henry / sum) * turns[group];
          own = new Complex(0, omega * ringCoupling[ring] * one);
        }
        z[a][b] = own;
      }
    }
    FieldMatrix<Complex> branches =
        new FieldLUDecomposition<>(new Array2DRowFieldMatrix<>(z)).getSolver().getInverse();
    Complex[][] y = new Complex[groups][groups];
    for (Complex[] row : y) {
      java.util.Arrays.fill(row, Complex.ZERO);
    }
    // node g + 1 is the end of group g; node 0 is ground
    for (int a = 0; a < groups; a++) {
      for (int b = 0; b < groups; b++) {
        Complex value = branches.getEntry(a, b);
        add(y, a, b, value);
        add(y, a - 1, b - 1, value);
        add(y, a - 1, b, value.negate());
        add(y, a, b - 1, value.negate());
      }
    }
    Complex lossy = new Complex(tangent, 1).multiply(omega);
    for (int g = 0; g < groups; g++) {
      across(y, g - 1, g, lossy.multiply(0.4 * farad * groups));
    }
    across(y, -1, groups - 1, lossy.multiply(0.6 * farad));
    if (shorted > 0) {
      across(y, from - 1, to - 1, new Complex(1 / Math.max(contact, 0.01)));
    }
    Complex[] in = new Complex[groups];
    java.util.Arrays.fill(in, Complex.ZERO);
    in[groups - 1] = Complex.ONE;
    return new FieldLUDecomposition<>(new Array2DRowFieldMatrix<>(y))
        .getSolver()
        .solve(new ArrayFieldVector<>(in))
        .getEntry(groups - 1);
  }

  private static void across(Complex[][] y, int a, int b, Complex value) {
    add(y, a, a, value);
    add(y, b, b, value);
    add(y, a, b, value.negate());
    add(y, b, a, value.negate());
  }

  private static void add(Complex[][] y, int a, int b, Complex value) {
    if (a >= 0 && b >= 0) {
      y[a][b] = y[a][b].add(value);
    }
  }

  /** Swept through 100k into 1M and 80p. */
  Response throughSeries(int points, double noise) {
    double[] hz = new double[points];
    double[] re = new double[points];
    double[] im = new double[points];
    double[] sd = new double[points];
    for (int k = 0; k < points; k++) {
      hz[k] = 25 * Math.pow(18000 / 25.0, k / (points - 1.0));
      Complex load = new Complex(1e-6, 2 * Math.PI * hz[k] * 80e-12);
      Complex all = impedance(hz[k]).reciprocal().add(load).reciprocal();
      Complex h = all.divide(all.add(100e3));
      sd[k] = noise * h.abs();
      re[k] = h.getReal() + sd[k] * random.nextGaussian() / Math.sqrt(2);
      im[k] = h.getImaginary() + sd[k] * random.nextGaussian() / Math.sqrt(2);
    }
    return new Response(hz, re, im, sd);
  }
}
