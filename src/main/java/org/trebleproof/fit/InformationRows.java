package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.apache.commons.math3.linear.Array2DRowRealMatrix;
import org.apache.commons.math3.linear.EigenDecomposition;

/**
 * Information about effects as independent rows of unit variance: with A = V diag(l) V', the rows
 * sqrt(l) v' and targets v' b / sqrt(l) have the squares x' A x - 2 b' x, up to a constant.
 *
 * @param root a row for each direction of which something is known
 * @param target its value
 */
public record InformationRows(double[][] root, double[] target) {

  /** Directions with less information than this, relative to the most, are left out. */
  private static final double NOTHING = 1e-7;

  /** As if all that was seen had been seen so many times, independently. */
  public InformationRows repeated(int times) {
    double by = Math.sqrt(times);
    return new InformationRows(
        Arrays.stream(root)
            .map(row -> Arrays.stream(row).map(a -> by * a).toArray())
            .toArray(double[][]::new),
        Arrays.stream(target).map(b -> by * b).toArray());
  }

  /** From what the data say, but for directions of which they say next to nothing. */
  public static InformationRows of(MixedEffects.Information information) {
    EigenDecomposition eigen =
        new EigenDecomposition(new Array2DRowRealMatrix(information.information(), true));
    double largest = eigen.getRealEigenvalue(0);
    List<double[]> rows = new ArrayList<>();
    List<Double> values = new ArrayList<>();
    for (int k = 0; k < information.score().length; k++) {
      double lambda = eigen.getRealEigenvalue(k);
      if (lambda > NOTHING * largest) {
        double[] vector = eigen.getEigenvector(k).toArray();
        double dot = 0;
        for (int i = 0; i < vector.length; i++) {
          dot += vector[i] * information.score()[i];
        }
        double[] row = new double[vector.length];
        for (int i = 0; i < row.length; i++) {
          row[i] = Math.sqrt(lambda) * vector[i];
        }
        rows.add(row);
        values.add(dot / Math.sqrt(lambda));
      }
    }
    return new InformationRows(
        rows.toArray(new double[0][]), values.stream().mapToDouble(Double::doubleValue).toArray());
  }
}
