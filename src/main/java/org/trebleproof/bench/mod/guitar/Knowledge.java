package org.trebleproof.bench.mod.guitar;

import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.fit.Parameter;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Marking;

/**
 * What is known of a set of positive values together. Each value deviates from its mean by a factor
 * that follows from a normal variable z: exp(z), or 1 + z where the data fix a sum of values
 * (capacitances in parallel), or 1 / (1 - z) where they fix a sum of reciprocals (resistances in
 * parallel), so that a sum which is known well stays known in every random set. A marking's
 * tolerance is a 95 % interval.
 *
 * @param names of the values
 * @param logMean natural logarithms, SI
 * @param logCovariance covariance of the variables z
 * @param paths how each value follows from its variable
 * @param markings of the values of which only the marking is known
 */
public record Knowledge(
    List<String> names,
    double[] logMean,
    double[][] logCovariance,
    List<Parameter.Path> paths,
    Map<String, Marking> markings) {

  /** Beyond this a value would come near zero: its logarithm takes over. */
  private static final double FARTHEST = 0.8;

  public Knowledge {
    paths = List.copyOf(paths);
    names = List.copyOf(names);
    markings = Collections.unmodifiableMap(new LinkedHashMap<>(markings));
    if (logMean.length != names.size() || logCovariance.length != names.size()) {
      throw new IllegalArgumentException("as many values as names are needed");
    }
  }

  /** Values of which only the markings are known. */
  public static Knowledge of(Map<String, Marking> markings) {
    return new Knowledge(List.of(), new double[0], new double[0][0], List.of(), Map.of())
        .and(markings);
  }

  /** With further parts, independent of the rest; a name that is there already is kept as it is. */
  public Knowledge and(Map<String, Marking> more) {
    Map<String, Marking> added = new LinkedHashMap<>(more);
    added.keySet().removeAll(names);
    int old = names.size();
    int size = old + added.size();
    List<String> all = new ArrayList<>(names);
    double[] mean = java.util.Arrays.copyOf(logMean, size);
    double[][] covariance = new double[size][size];
    for (int i = 0; i < old; i++) {
      System.arraycopy(logCovariance[i], 0, covariance[i], 0, old);
    }
    List<Parameter.Path> allPaths = new ArrayList<>(paths);
    int at = old;
    for (Map.Entry<String, Marking> part : added.entrySet()) {
      all.add(part.getKey());
      allPaths.add(Parameter.Path.COORDINATE);
      mean[at] = Math.log(part.getValue().value());
      covariance[at][at] = part.getValue().logSd() * part.getValue().logSd();
      at++;
    }
    Map<String, Marking> marked = new LinkedHashMap<>(markings);
    marked.putAll(added);
    return new Knowledge(all, mean, covariance, allPaths, marked);
  }

  /**
   * With what another guitar knows of one of its pickups, independent of the rest.
   *
   * @param coil model of that pickup
   * @param there its name there
   * @param here its name here
   */
  Knowledge beside(Knowledge other, CoilModel coil, String there, String here) {
    Map<String, String> renamed = new HashMap<>();
    coil.parameters().forEach(p -> renamed.put(p.in(there), p.in(here)));
    List<Integer> taken = new ArrayList<>();
    for (int i = 0; i < other.names.size(); i++) {
      if (renamed.containsKey(other.names.get(i))) {
        taken.add(i);
      }
    }
    int old = names.size();
    int size = old + taken.size();
    List<String> all = new ArrayList<>(names);
    List<Parameter.Path> allPaths = new ArrayList<>(paths);
    Map<String, Marking> marked = new LinkedHashMap<>(markings);
    double[] mean = java.util.Arrays.copyOf(logMean, size);
    double[][] covariance = new double[size][size];
    for (int i = 0; i < old; i++) {
      System.arraycopy(logCovariance[i], 0, covariance[i], 0, old);
    }
    for (int a = 0; a < taken.size(); a++) {
      int from = taken.get(a);
      String name = renamed.get(other.names.get(from));
      all.add(name);
      allPaths.add(other.paths.get(from));
      if (other.markings.containsKey(other.names.get(from))) {
        marked.put(name, other.markings.get(other.names.get(from)));
      }
      mean[old + a] = other.logMean[from];
      for (int b = 0; b < taken.size(); b++) {
        covariance[old + a][old + b] = other.logCovariance[from][taken.get(b)];
      }
    }
    return new Knowledge(all, mean, covariance, allPaths, marked);
  }

  /** Index of a value; -1 when it is not known. */
  public int index(String name) {
    return names.indexOf(name);
  }

  /** Standard deviation of a quantity with this gradient over the logarithms. */
  public double sd(double[] gradient) {
    double variance = 0;
    for (int a = 0; a < gradient.length; a++) {
      for (int b = 0; b < gradient.length; b++) {
        variance += gradient[a] * logCovariance[a][b] * gradient[b];
      }
    }
    return Math.sqrt(Math.max(0, variance));
  }

  /** Half-width of the 95 % interval of a quantity with this gradient. */
  public double halfWidth(double[] gradient) {
    return Estimate.NORMAL_95 * sd(gradient);
  }

  /**
   * Random logarithms.
   *
   * @param count how many sets
   * @param seed of the random numbers: the same seed, the same sets
   */
  public double[][] draws(int count, long seed) {
    double[][] root = root();
    Random random = new Random(seed);
    int n = names.size();
    double[][] draws = new double[count][n];
    double[] normal = new double[n];
    for (double[] draw : draws) {
      for (int i = 0; i < n; i++) {
        normal[i] = random.nextGaussian();
      }
      for (int i = 0; i < n; i++) {
        double z = 0;
        for (int k = 0; k <= i; k++) {
          z += root[i][k] * normal[k];
        }
        draw[i] = logMean[i] + deviation(paths.get(i), z);
      }
    }
    return draws;
  }

  private static double deviation(Parameter.Path path, double z) {
    return switch (path) {
      case COORDINATE -> z;
      case VALUE -> z > -FARTHEST ? Math.log1p(z) : z;
      case RECIPROCAL -> z < FARTHEST ? -Math.log1p(-z) : z;
    };
  }

  /** Cholesky factor; directions without spread keep none. */
  private double[][] root() {
    int n = names.size();
    double[][] root = new double[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j <= i; j++) {
        double sum = logCovariance[i][j];
        for (int k = 0; k < j; k++) {
          sum -= root[i][k] * root[j][k];
        }
        if (i == j) {
          root[i][i] = sum > 1e-12 * logCovariance[i][i] ? Math.sqrt(sum) : 0;
        } else {
          root[i][j] = root[j][j] > 0 ? sum / root[j][j] : 0;
        }
      }
    }
    return root;
  }
}
