package org.trebleproof.fit;

import java.util.Arrays;
import java.util.List;

/**
 * A linear mixed-effects model: each row is what its group has in common, plus effects common to
 * all, plus effects of its own subject, plus noise,
 *
 * <p>y_i = m_g(i) + c_i x + z_i u_s(i) + e_i, with m free or normal about nought, x normal with a
 * given precision, u_s normal with variances shared by all subjects, e_i normal with a given
 * variance.
 *
 * <p>Groups are eliminated one by one, what is left is solved by Cholesky (Henderson's mixed-model
 * equations; C. R. Henderson, Biometrics 31, 1975, from memory). Variances follow by the
 * expectation-maximisation steps of restricted likelihood.
 */
public final class MixedEffects {

  private final List<Row> rows;
  private final int groups;
  private final int subjects;
  private final int common;
  private final int own;

  /**
   * One row.
   *
   * @param group index of its group
   * @param subject index of its subject
   * @param value y
   * @param at indices of the common effects that it has
   * @param by their coefficients
   * @param own coefficients of the subject's effects
   */
  public record Row(int group, int subject, double value, int[] at, double[] by, double[] own) {}

  /**
   * @param rows the data
   * @param groups number of groups
   * @param subjects number of subjects
   * @param common number of common effects
   * @param own number of effects of each subject
   */
  public MixedEffects(List<Row> rows, int groups, int subjects, int common, int own) {
    this.rows = List.copyOf(rows);
    this.groups = groups;
    this.subjects = subjects;
    this.common = common;
    this.own = own;
  }

  /**
   * What the variances are taken to be.
   *
   * @param noise variance of each row
   * @param commonPrecision precision of each common effect about nought
   * @param commonPenalty further precision among the first common effects; may be empty
   * @param ownVariance variance of each of a subject's effects
   * @param groupVariance variance of the groups' means about nought; infinite when free
   */
  public record Variances(
      double[] noise,
      double[] commonPrecision,
      double[][] commonPenalty,
      double[] ownVariance,
      double groupVariance) {}

  /**
   * The solution.
   *
   * @param common the common effects
   * @param own effects of each subject
   * @param group means of the groups
   * @param residual of each row
   * @param ownSquare mean square expected of each of a subject's effects
   * @param leverage share of each row's variance taken up by the effects
   * @param groupSquare mean square expected of the groups' means
   * @param commonCovariance covariance of the common effects
   * @param ownSd standard deviations of each subject's effects
   */
  public record Fit(
      double[] common,
      double[][] own,
      double[] group,
      double[] residual,
      double[] ownSquare,
      double[] leverage,
      double groupSquare,
      double[][] commonCovariance,
      double[][] ownSd) {}

  /**
   * What the data say about the common effects alone, everything else averaged out and their own
   * priors left aside: minus twice the log likelihood is x' A x - 2 b' x + constant.
   *
   * @param information A
   * @param score b
   */
  public record Information(double[][] information, double[] score) {}

  private int unknowns() {
    return common + subjects * own;
  }

  private record Equations(double[][] left, double[] right, double[] groupWeight) {}

  private Equations equations(Variances v, boolean withCommonPrior) {
    int n = unknowns();
    double[][] left = new double[n][n];
    double[] right = new double[n];
    double[] groupWeight = new double[groups];
    double[] groupSum = new double[groups];
    double[][] groupVector = new double[groups][];
    for (int i = 0; i < rows.size(); i++) {
      Row r = rows.get(i);
      double w = 1 / v.noise[i];
      int[] index = indices(r);
      double[] a = coefficients(r);
      if (groupVector[r.group] == null) {
        groupVector[r.group] = new double[n];
      }
      double[] g = groupVector[r.group];
      groupWeight[r.group] += w;
      groupSum[r.group] += w * r.value;
      for (int p = 0; p < index.length; p++) {
        double wp = w * a[p];
        right[index[p]] += wp * r.value;
        g[index[p]] += wp;
        for (int q = 0; q <= p; q++) {
          left[Math.max(index[p], index[q])][Math.min(index[p], index[q])] += wp * a[q];
        }
      }
    }
    double held = 1 / v.groupVariance;
    for (int g = 0; g < groups; g++) {
      if (groupVector[g] == null) {
        continue;
      }
      groupWeight[g] += held;
      int[] used = java.util.stream.IntStream.range(0, n).filter(nonzero(groupVector[g])).toArray();
      for (int p : used) {
        double share = groupVector[g][p] / groupWeight[g];
        right[p] -= share * groupSum[g];
        for (int q : used) {
          if (q > p) {
            break;
          }
          left[p][q] -= share * groupVector[g][q];
        }
      }
    }
    if (withCommonPrior) {
      for (int c = 0; c < common; c++) {
        left[c][c] += v.commonPrecision[c];
      }
      for (int c = 0; c < v.commonPenalty.length; c++) {
        for (int d = 0; d <= c; d++) {
          left[c][d] += v.commonPenalty[c][d];
        }
      }
    }
    for (int s = 0; s < subjects; s++) {
      for (int k = 0; k < own; k++) {
        int at = common + s * own + k;
        left[at][at] += 1 / v.ownVariance[k];
      }
    }
    for (int p = 0; p < n; p++) {
      for (int q = 0; q < p; q++) {
        left[q][p] = left[p][q];
      }
    }
    return new Equations(left, right, groupWeight);
  }

  private static java.util.function.IntPredicate nonzero(double[] vector) {
    return i -> vector[i] != 0;
  }

  private int[] indices(Row r) {
    int[] index = Arrays.copyOf(r.at, r.at.length + own);
    for (int k = 0; k < own; k++) {
      index[r.at.length + k] = common + r.subject * own + k;
    }
    return index;
  }

  private double[] coefficients(Row r) {
    double[] a = Arrays.copyOf(r.by, r.by.length + own);
    System.arraycopy(r.own, 0, a, r.by.length, own);
    return a;
  }

  /** Solves for all effects. */
  public Fit solve(Variances v) {
    Equations e = equations(v, true);
    double[][] covariance = inverse(e.left);
    int n = unknowns();
    double[] x = new double[n];
    for (int p = 0; p < n; p++) {
      for (int q = 0; q < n; q++) {
        x[p] += covariance[p][q] * e.right[q];
      }
    }
    double[] sum = new double[groups];
    double[][] mean = new double[groups][];
    int[][] touched = new int[groups][];
    for (int i = 0; i < rows.size(); i++) {
      Row r = rows.get(i);
      int[] index = indices(r);
      double[] a = coefficients(r);
      double rest = r.value;
      if (mean[r.group] == null) {
        mean[r.group] = new double[n];
      }
      for (int p = 0; p < a.length; p++) {
        rest -= a[p] * x[index[p]];
        mean[r.group][index[p]] += a[p] / v.noise[i] / e.groupWeight[r.group];
      }
      sum[r.group] += rest / v.noise[i] / e.groupWeight[r.group];
    }
    double[] groupVariance = new double[groups];
    for (int g = 0; g < groups; g++) {
      if (mean[g] != null) {
        touched[g] = java.util.stream.IntStream.range(0, n).filter(nonzero(mean[g])).toArray();
        groupVariance[g] = 1 / e.groupWeight[g] + form(covariance, touched[g], mean[g]);
      }
    }
    double[] residual = new double[rows.size()];
    double[] leverage = new double[rows.size()];
    for (int i = 0; i < rows.size(); i++) {
      Row r = rows.get(i);
      int[] index = indices(r);
      double[] a = coefficients(r);
      double fitted = sum[r.group];
      for (int p = 0; p < a.length; p++) {
        fitted += a[p] * x[index[p]];
      }
      residual[i] = r.value - fitted;
      // variance of the fitted value: effects with the group's mean following them
      double[] d = mean[r.group];
      double variance = 1 / e.groupWeight[r.group];
      for (int p = 0; p < index.length; p++) {
        d[index[p]] -= a[p];
      }
      variance += form(covariance, touched[r.group], d);
      for (int p = 0; p < index.length; p++) {
        d[index[p]] += a[p];
      }
      leverage[i] = Math.min(0.999, variance / v.noise[i]);
    }
    double[][] effects = new double[subjects][own];
    double[][] sd = new double[subjects][own];
    double[] square = new double[own];
    for (int s = 0; s < subjects; s++) {
      for (int k = 0; k < own; k++) {
        int at = common + s * own + k;
        effects[s][k] = x[at];
        sd[s][k] = Math.sqrt(Math.max(0, covariance[at][at]));
        square[k] += (x[at] * x[at] + covariance[at][at]) / subjects;
      }
    }
    double groupSquare = 0;
    int counted = 0;
    for (int g = 0; g < groups; g++) {
      if (mean[g] != null) {
        groupSquare += sum[g] * sum[g] + groupVariance[g];
        counted++;
      }
    }
    double[][] top = new double[common][];
    for (int c = 0; c < common; c++) {
      top[c] = Arrays.copyOf(covariance[c], common);
    }
    return new Fit(
        Arrays.copyOf(x, common),
        effects,
        sum,
        residual,
        square,
        leverage,
        groupSquare / Math.max(1, counted),
        top,
        sd);
  }

  private static double form(double[][] matrix, int[] used, double[] vector) {
    double sum = 0;
    for (int p : used) {
      double inner = 0;
      for (int q : used) {
        inner += matrix[p][q] * vector[q];
      }
      sum += inner * vector[p];
    }
    return sum;
  }

  /**
   * What the data say about the first common effects, the others averaged out under their priors.
   *
   * @param wanted how many of the first common effects
   */
  public Information information(Variances v, int wanted) {
    Equations e = equations(v, false);
    int n = unknowns();
    int rest = n - wanted;
    double[][] inner = new double[rest][rest];
    for (int p = 0; p < rest; p++) {
      System.arraycopy(e.left[wanted + p], wanted, inner[p], 0, rest);
      if (wanted + p < common) {
        inner[p][p] += v.commonPrecision[wanted + p];
      }
    }
    double[][] inverse = inverse(inner);
    double[][] gain = new double[wanted][rest];
    for (int c = 0; c < wanted; c++) {
      for (int q = 0; q < rest; q++) {
        double b = e.left[c][wanted + q];
        if (b != 0) {
          for (int p = 0; p < rest; p++) {
            gain[c][p] += b * inverse[q][p];
          }
        }
      }
    }
    double[][] information = new double[wanted][wanted];
    double[] score = new double[wanted];
    for (int c = 0; c < wanted; c++) {
      score[c] = e.right[c];
      for (int p = 0; p < rest; p++) {
        score[c] -= gain[c][p] * e.right[wanted + p];
      }
      for (int d = 0; d < wanted; d++) {
        information[c][d] = e.left[c][d];
        for (int p = 0; p < rest; p++) {
          information[c][d] -= gain[c][p] * e.left[wanted + p][d];
        }
      }
    }
    for (int c = 0; c < wanted; c++) {
      for (int d = 0; d < c; d++) {
        double middle = (information[c][d] + information[d][c]) / 2;
        information[c][d] = middle;
        information[d][c] = middle;
      }
    }
    return new Information(information, score);
  }

  private static double[][] inverse(double[][] matrix) {
    int n = matrix.length;
    // a hair of ridge, so that effects nobody has seen stay put
    for (int i = 0; i < n; i++) {
      matrix[i][i] += 1e-9 + 1e-12 * matrix[i][i];
    }
    return PositiveDefinite.inverse(matrix);
  }
}
