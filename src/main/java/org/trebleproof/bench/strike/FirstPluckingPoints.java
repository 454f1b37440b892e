package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.trebleproof.algebra.GramSchmidt;
import org.trebleproof.signal.strike.PluckComb;

/**
 * A first guess of where each strike of one note plucked the string, from the gaps among its
 * partials. What all strikes have in common (the pickup's own comb, the string) is averaged out;
 * what is smooth over frequency (strength, brightness, the circuit) is projected out. Searched from
 * several places, since such a fit has many minima.
 */
final class FirstPluckingPoints {

  private static final double LOWEST = 0.03;
  private static final double HIGHEST = 0.5;
  private static final double STEP = 0.002;
  private static final int SMOOTH = 6;
  private static final int ROUNDS = 6;

  /** Strikes of one note lie about their middle by this share of the string, roughly. */
  private static final double SPREAD = 0.03;

  /** Differences beyond this count no more than in proportion [dB]. */
  private static final double LARGE = 4;

  private static final int GRID = (int) Math.round((HIGHEST - LOWEST) / STEP) + 1;

  private final int[][] numbers;
  private final double[][][] smooth;

  /** Levels of each strike, what is smooth taken out. */
  private final double[][] rough;

  /** The comb of each place at each strike's partials, what is smooth taken out. */
  private final double[][][] combs;

  private final int groups;

  /**
   * @param numbers partial numbers of each strike's levels
   * @param hz their frequencies
   * @param values their levels [dB]
   * @param comb the comb
   */
  FirstPluckingPoints(int[][] numbers, double[][] hz, double[][] values, PluckComb comb) {
    this.numbers = numbers;
    int most = 0;
    for (int[] n : numbers) {
      for (int k : n) {
        most = Math.max(most, k);
      }
    }
    this.groups = most + 1;
    int n = numbers.length;
    this.smooth = new double[n][][];
    this.rough = new double[n][];
    this.combs = new double[n][GRID][];
    double[][] byPlace = new double[GRID][groups];
    for (int g = 0; g < GRID; g++) {
      for (int k = 1; k < groups; k++) {
        byPlace[g][k] = comb.level(k, LOWEST + g * STEP);
      }
    }
    for (int s = 0; s < n; s++) {
      smooth[s] = orthonormal(hz[s]);
      rough[s] = rough(s, values[s].clone());
      for (int g = 0; g < GRID; g++) {
        combs[s][g] = rough(s, picked(s, byPlace[g]));
      }
    }
  }

  /** Of what there is for every partial, that for a strike's. */
  private double[] picked(int s, double[] all) {
    return Arrays.stream(numbers[s]).mapToDouble(k -> all[k]).toArray();
  }

  /** Takes out what is smooth over frequency. */
  private double[] rough(int s, double[] r) {
    for (double[] q : smooth[s]) {
      GramSchmidt.takeOut(q, r, r.length);
    }
    return r;
  }

  /** A guess for every strike, and how well it explains the levels. */
  record Guess(double[] places, double cost) {}

  Guess best() {
    List<Double> centres = new ArrayList<>();
    for (double c = 0.05; c <= 0.46; c += 0.034) {
      centres.add(c);
    }
    Guess best = null;
    for (Guess guess : centres.parallelStream().map(this::from).toList()) {
      if (best == null || guess.cost < best.cost) {
        best = guess;
      }
    }
    return best;
  }

  private Guess from(double centre) {
    int n = numbers.length;
    double[] common = new double[groups];
    int[] at = new int[n];
    double middle = centre;
    double cost = 0;
    for (int round = 0; round < ROUNDS; round++) {
      cost = 0;
      for (int s = 0; s < n; s++) {
        double[] rest = rough(s, picked(s, common));
        for (int i = 0; i < rest.length; i++) {
          rest[i] = rough[s][i] - rest[i];
        }
        double least = Double.POSITIVE_INFINITY;
        for (int g = 0; g < GRID; g++) {
          double off = (LOWEST + g * STEP - middle) / SPREAD;
          if (Math.abs(off) > 3) {
            continue;
          }
          double c = cost(rest, combs[s][g], off * off * 8, least);
          if (c < least) {
            least = c;
            at[s] = g;
          }
        }
        cost += least;
      }
      double[] sum = new double[groups];
      double[] count = new double[groups];
      for (int s = 0; s < n; s++) {
        double[] comb = combs[s][at[s]];
        for (int i = 0; i < comb.length; i++) {
          sum[numbers[s][i]] += rough[s][i] - comb[i];
          count[numbers[s][i]]++;
        }
      }
      for (int k = 0; k < groups; k++) {
        common[k] = count[k] > 1 ? sum[k] / count[k] : 0;
      }
      double mean = 0;
      for (int g : at) {
        mean += (LOWEST + g * STEP) / n;
      }
      middle = mean;
    }
    double[] places = new double[n];
    for (int s = 0; s < n; s++) {
      places[s] = LOWEST + at[s] * STEP;
    }
    return new Guess(places, cost);
  }

  /** Adds what a comb leaves to a cost; not to the end once it is more than the least so far. */
  private static double cost(double[] rest, double[] comb, double cost, double least) {
    double sum = cost;
    for (int i = 0; i < rest.length && sum < least; i++) {
      double a = Math.abs(rest[i] - comb[i]);
      sum += a < LARGE ? a * a : LARGE * (2 * a - LARGE);
    }
    return sum;
  }

  /** Polynomials in the logarithm of frequency, orthonormal over a strike's partials. */
  private static double[][] orthonormal(double[] hz) {
    double[][] q = new double[Math.max(0, Math.min(SMOOTH, hz.length - 2))][hz.length];
    int count = 0;
    for (int d = 0; d < q.length; d++) {
      for (int i = 0; i < hz.length; i++) {
        q[count][i] = Math.pow(Math.log(hz[i] / 1000), d);
      }
      if (GramSchmidt.add(q, count, hz.length, new double[q.length]) > 0) {
        count++;
      }
    }
    return Arrays.copyOf(q, count);
  }
}
