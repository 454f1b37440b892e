package org.trebleproof.fit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.trebleproof.algebra.PositiveDefinite;
import org.trebleproof.algebra.RowProducts;

/**
 * A linear mixed-effects model: each row is what its group has in common, plus effects common to
 * all, plus effects of its own subject, plus noise,
 *
 * <p>y_i = m_g(i) + c_i x + z_i u_s(i) + e_i, with m free or normal about nought, x normal with a
 * given precision, u_s normal with a covariance shared by all subjects, e_i normal with a given
 * variance.
 *
 * <p>Groups are eliminated one by one, then the subjects, what is left is solved by Cholesky
 * (Henderson's mixed-model equations; C. R. Henderson, Biometrics 31, 1975, from memory). Variances
 * follow by the expectation-maximisation steps of restricted likelihood.
 */
public final class MixedEffects {

  private final List<Row> rows;
  private final int groups;
  private final int subjects;
  private final int common;
  private final int own;
  private final List<Block> blocks;

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
    this.blocks = blocks();
  }

  /**
   * Subjects that share groups, directly or through others. Blocks meet in the common effects
   * alone, so that the equations are an arrow: a block each, and a border.
   *
   * @param subjects of the block
   * @param rows of the block, by group
   */
  private record Block(int[] subjects, List<List<Integer>> rows) {}

  private List<Block> blocks() {
    int[] of = new int[subjects];
    Arrays.setAll(of, s -> s);
    int[] first = new int[groups];
    Arrays.fill(first, -1);
    for (Row r : rows) {
      if (first[r.group] < 0) {
        first[r.group] = r.subject;
      }
      int a = top(of, first[r.group]);
      int b = top(of, r.subject);
      of[Math.max(a, b)] = Math.min(a, b);
    }
    Map<Integer, List<Integer>> members = new TreeMap<>();
    for (int s = 0; s < subjects; s++) {
      members.computeIfAbsent(top(of, s), k -> new ArrayList<>()).add(s);
    }
    Map<Integer, Map<Integer, List<Integer>>> byBlock = new TreeMap<>();
    for (int i = 0; i < rows.size(); i++) {
      byBlock
          .computeIfAbsent(top(of, rows.get(i).subject), k -> new TreeMap<>())
          .computeIfAbsent(rows.get(i).group, k -> new ArrayList<>())
          .add(i);
    }
    List<Block> all = new ArrayList<>();
    members.forEach(
        (block, list) ->
            all.add(
                new Block(
                    list.stream().mapToInt(Integer::intValue).toArray(),
                    List.copyOf(byBlock.getOrDefault(block, Map.of()).values()))));
    return all;
  }

  private static int top(int[] of, int s) {
    int top = s;
    while (of[top] != top) {
      top = of[top];
    }
    return top;
  }

  /**
   * What the variances are taken to be.
   *
   * @param noise variance of each row
   * @param commonPrecision precision of each common effect about nought
   * @param commonPenalty further precision among the first common effects; may be empty
   * @param ownCovariance covariance of a subject's effects
   * @param groupVariance variance of the groups' means about nought; infinite when free
   */
  public record Variances(
      double[] noise,
      double[] commonPrecision,
      double[][] commonPenalty,
      double[][] ownCovariance,
      double groupVariance) {}

  /**
   * The solution.
   *
   * @param common the common effects
   * @param own effects of each subject
   * @param group means of the groups
   * @param residual of each row
   * @param ownMoment mean products expected of a subject's effects
   * @param leverage share of each row's variance taken up by the effects
   * @param groupSquare mean square expected of the groups' means
   * @param commonCovariance covariance of the common effects
   */
  public record Fit(
      double[] common,
      double[][] own,
      double[] group,
      double[] residual,
      double[][] ownMoment,
      double[] leverage,
      double groupSquare,
      double[][] commonCovariance) {}

  /**
   * What the data say about the common effects alone, everything else averaged out and their own
   * priors left aside: minus twice the log likelihood is x' A x - 2 b' x + constant.
   *
   * @param information A
   * @param score b
   */
  public record Information(double[][] information, double[] score) {}

  /**
   * A block's equations, its groups eliminated.
   *
   * @param at place of each subject's effects among the block's own
   * @param own among the block's own effects
   * @param border own effects by common ones
   * @param right of the block's own effects
   * @param left what the block adds among the common effects, lower triangle
   * @param commonRight what it adds to their right side
   */
  private record Equations(
      int[] at,
      double[][] own,
      double[][] border,
      double[] right,
      double[][] left,
      double[] commonRight) {}

  private Equations equations(Block block, Variances v) {
    double[][] left = new double[common][common];
    double[] right = new double[common];
    int m = block.subjects.length * own;
    int[] at = new int[subjects];
    for (int k = 0; k < block.subjects.length; k++) {
      at[block.subjects[k]] = k * own;
    }
    double[][] inner = new double[m][m];
    double[][] border = new double[m][common];
    double[] innerRight = new double[m];
    // what ties each group's mean to the effects and to the values, over the root of its weight
    double[][] ties = new double[common + m][block.rows.size()];
    double[] tied = new double[block.rows.size()];
    double[] g = new double[common + m];
    for (int n = 0; n < tied.length; n++) {
      List<Integer> group = block.rows.get(n);
      Arrays.fill(g, 0);
      double weight = 1 / v.groupVariance;
      double sum = 0;
      for (int i : group) {
        Row r = rows.get(i);
        double w = 1 / v.noise[i];
        weight += w;
        sum += w * r.value;
        for (int p = 0; p < r.at.length; p++) {
          double wp = w * r.by[p];
          right[r.at[p]] += wp * r.value;
          g[r.at[p]] += wp;
          for (int q = 0; q < r.at.length; q++) {
            if (r.at[q] <= r.at[p]) {
              left[r.at[p]][r.at[q]] += wp * r.by[q];
            }
          }
        }
        for (int p = 0; p < own; p++) {
          double wp = w * r.own[p];
          int row = at[r.subject] + p;
          innerRight[row] += wp * r.value;
          g[common + row] += wp;
          for (int q = 0; q <= p; q++) {
            inner[row][at[r.subject] + q] += wp * r.own[q];
          }
          for (int q = 0; q < r.at.length; q++) {
            border[row][r.at[q]] += wp * r.by[q];
          }
        }
      }
      double size = Math.sqrt(weight);
      for (int p = 0; p < g.length; p++) {
        ties[p][n] = g[p] / size;
      }
      tied[n] = sum / size;
    }
    double[][] followed = RowProducts.lower(ties, ties);
    for (int p = 0; p < common; p++) {
      right[p] -= RowProducts.product(ties[p], tied);
      for (int q = 0; q <= p; q++) {
        left[p][q] -= followed[p][q];
      }
    }
    for (int p = 0; p < m; p++) {
      innerRight[p] -= RowProducts.product(ties[common + p], tied);
      for (int q = 0; q < common; q++) {
        border[p][q] -= followed[common + p][q];
      }
      for (int q = 0; q <= p; q++) {
        inner[p][q] -= followed[common + p][common + q];
      }
    }
    double[][] precision = inverse(copy(v.ownCovariance));
    for (int i = 0; i < m; i++) {
      for (int k = 0; k <= i % own; k++) {
        inner[i][i - i % own + k] += precision[i % own][k];
      }
    }
    return new Equations(at, inner, border, innerRight, left, right);
  }

  /**
   * A block with its own effects expressed by the common ones.
   *
   * @param slope common effects by own ones
   * @param left what is left of the block among the common effects, lower triangle
   * @param right of it
   */
  private record Solved(
      Equations equations,
      double[][] covariance,
      double[][] slope,
      double[][] left,
      double[] right) {}

  private Solved solved(Block block, Variances v) {
    Equations e = equations(block, v);
    double[][] covariance = inverse(e.own);
    double[][] border = RowProducts.transposed(e.border);
    double[][] slope = RowProducts.of(border, covariance);
    double[][] explained = RowProducts.lower(border, slope);
    double[][] left = e.left;
    double[] right = e.commonRight;
    for (int c = 0; c < common; c++) {
      for (int d = 0; d <= c; d++) {
        left[c][d] -= explained[c][d];
      }
      right[c] -= RowProducts.product(slope[c], e.right);
    }
    return new Solved(e, covariance, slope, left, right);
  }

  /** Eliminates every block's own effects; what is left among the common ones is in the arrays. */
  private List<Solved> eliminate(Variances v, double[][] left, double[] right) {
    List<Solved> solved = blocks.parallelStream().map(block -> solved(block, v)).toList();
    for (Solved block : solved) {
      for (int c = 0; c < common; c++) {
        for (int d = 0; d <= c; d++) {
          left[c][d] += block.left[c][d];
        }
        right[c] += block.right[c];
      }
    }
    return solved;
  }

  private static double[][] mean(double[][][] matrices) {
    double[][] mean = copy(matrices[0]);
    for (int k = 0; k < mean.length; k++) {
      for (int l = 0; l < mean.length; l++) {
        double sum = 0;
        for (double[][] m : matrices) {
          sum += m[k][l];
        }
        mean[k][l] = sum / matrices.length;
      }
    }
    return mean;
  }

  private static double[][] copy(double[][] matrix) {
    return Arrays.stream(matrix).map(double[]::clone).toArray(double[][]::new);
  }

  /** Solves for all effects. */
  public Fit solve(Variances v) {
    double[][] left = new double[common][common];
    double[] right = new double[common];
    List<Solved> solved = eliminate(v, left, right);
    for (int c = 0; c < common; c++) {
      left[c][c] += v.commonPrecision[c];
    }
    for (int c = 0; c < v.commonPenalty.length; c++) {
      for (int d = 0; d <= c; d++) {
        left[c][d] += v.commonPenalty[c][d];
      }
    }
    double[][] covariance = inverse(left);
    double[] x = new double[common];
    for (int p = 0; p < common; p++) {
      for (int q = 0; q < common; q++) {
        x[p] += covariance[p][q] * right[q];
      }
    }
    Answers answers = new Answers();
    // each block fills places of its own
    IntStream.range(0, blocks.size())
        .parallel()
        .forEach(n -> settle(blocks.get(n), solved.get(n), v, x, covariance, answers));
    return answers.fit(x, covariance);
  }

  /** What is gathered block by block. */
  private final class Answers {
    final double[][] effects = new double[subjects][own];
    final double[][][] moment = new double[subjects][own][own];
    final double[] group = new double[groups];
    final double[] residual = new double[rows.size()];
    final double[] leverage = new double[rows.size()];

    /** Mean square expected of each group; nought where it has no rows. */
    final double[] groupSquare = new double[groups];

    Fit fit(double[] x, double[][] covariance) {
      return new Fit(
          x,
          effects,
          group,
          residual,
          mean(moment),
          leverage,
          Arrays.stream(groupSquare).sum()
              / Math.max(1, Arrays.stream(groupSquare).filter(q -> q > 0).count()),
          covariance);
    }
  }

  private void settle(
      Block block,
      Solved solved,
      Variances v,
      double[] x,
      double[][] commonCovariance,
      Answers answers) {
    int m = solved.covariance.length;
    double[][] c = covariance(solved, commonCovariance);
    double[] all = Arrays.copyOf(x, common + m);
    for (int i = 0; i < m; i++) {
      double sum = 0;
      for (int k = 0; k < m; k++) {
        sum += solved.covariance[i][k] * solved.equations.right[k];
      }
      for (int k = 0; k < common; k++) {
        sum -= solved.slope[k][i] * x[k];
      }
      all[common + i] = sum;
    }
    for (int s : block.subjects) {
      int at = common + solved.equations.at[s];
      for (int k = 0; k < own; k++) {
        answers.effects[s][k] = all[at + k];
        for (int l = 0; l < own; l++) {
          answers.moment[s][k][l] = all[at + k] * all[at + l] + c[at + k][at + l];
        }
      }
    }
    double[][] means = new double[block.rows.size()][common + m];
    double[] weights = new double[means.length];
    double[] sums = new double[means.length];
    for (int g = 0; g < means.length; g++) {
      double[] mean = means[g];
      double weight = 1 / v.groupVariance;
      for (int i : block.rows.get(g)) {
        weight += 1 / v.noise[i];
      }
      double sum = 0;
      for (int i : block.rows.get(g)) {
        Row r = rows.get(i);
        int[] index = indices(r, solved.equations.at);
        double[] a = coefficients(r);
        double w = 1 / v.noise[i] / weight;
        double rest = r.value;
        for (int p = 0; p < a.length; p++) {
          rest -= a[p] * all[index[p]];
          mean[index[p]] += a[p] * w;
        }
        sum += rest * w;
      }
      weights[g] = weight;
      sums[g] = sum;
    }
    // variances of a row's effects less what the group's mean follows of them
    double[][] along = RowProducts.of(means, c);
    for (int g = 0; g < means.length; g++) {
      double square = RowProducts.product(means[g], along[g]);
      for (int i : block.rows.get(g)) {
        Row r = rows.get(i);
        int[] index = indices(r, solved.equations.at);
        double[] a = coefficients(r);
        double fitted = sums[g];
        double variance = 1 / weights[g] + square;
        for (int p = 0; p < a.length; p++) {
          fitted += a[p] * all[index[p]];
          double[] row = c[index[p]];
          double dot = row[index[p]] * a[p] / 2 - along[g][index[p]];
          for (int q = 0; q < p; q++) {
            dot += row[index[q]] * a[q];
          }
          variance += 2 * a[p] * dot;
        }
        answers.residual[i] = r.value - fitted;
        answers.leverage[i] = Math.min(0.999, variance / v.noise[i]);
      }
      int group = rows.get(block.rows.get(g).get(0)).group;
      answers.group[group] = sums[g];
      answers.groupSquare[group] = sums[g] * sums[g] + 1 / weights[g] + square;
    }
  }

  /** Covariance of the common effects and a block's own, in this order. */
  private double[][] covariance(Solved solved, double[][] commonCovariance) {
    int m = solved.covariance.length;
    double[][] slope = RowProducts.transposed(solved.slope);
    double[][] across = RowProducts.of(slope, commonCovariance);
    double[][] further = RowProducts.lower(across, slope);
    double[][] c = new double[common + m][common + m];
    for (int i = 0; i < common; i++) {
      System.arraycopy(commonCovariance[i], 0, c[i], 0, common);
    }
    for (int i = 0; i < m; i++) {
      for (int k = 0; k < common; k++) {
        c[common + i][k] = -across[i][k];
        c[k][common + i] = -across[i][k];
      }
      for (int j = 0; j <= i; j++) {
        double both = solved.covariance[i][j] + further[i][j];
        c[common + i][common + j] = both;
        c[common + j][common + i] = both;
      }
    }
    return c;
  }

  private int[] indices(Row r, int[] at) {
    int[] index = Arrays.copyOf(r.at, r.at.length + own);
    for (int k = 0; k < own; k++) {
      index[r.at.length + k] = common + at[r.subject] + k;
    }
    return index;
  }

  private double[] coefficients(Row r) {
    double[] a = Arrays.copyOf(r.by, r.by.length + own);
    System.arraycopy(r.own, 0, a, r.by.length, own);
    return a;
  }

  /**
   * What the data say about the first common effects, the others averaged out under their priors.
   *
   * @param wanted how many of the first common effects
   */
  public Information information(Variances v, int wanted) {
    double[][] left = new double[common][common];
    double[] right = new double[common];
    eliminate(v, left, right);
    for (int p = 0; p < common; p++) {
      for (int q = 0; q < p; q++) {
        left[q][p] = left[p][q];
      }
    }
    int rest = common - wanted;
    double[][] inner = new double[rest][rest];
    double[][] border = new double[wanted][rest];
    for (int p = 0; p < rest; p++) {
      System.arraycopy(left[wanted + p], wanted, inner[p], 0, rest);
      inner[p][p] += v.commonPrecision[wanted + p];
    }
    for (int c = 0; c < wanted; c++) {
      System.arraycopy(left[c], wanted, border[c], 0, rest);
    }
    double[][] slope = RowProducts.of(border, inverse(inner));
    double[][] explained = RowProducts.of(border, slope);
    double[][] information = new double[wanted][wanted];
    double[] score = new double[wanted];
    double[] others = Arrays.copyOfRange(right, wanted, common);
    for (int c = 0; c < wanted; c++) {
      score[c] = right[c] - RowProducts.product(slope[c], others);
      for (int d = 0; d < wanted; d++) {
        information[c][d] = left[c][d] - explained[c][d];
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
