package org.trebleproof.bench.strike;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.trebleproof.algebra.RowProducts;
import org.trebleproof.bench.model.ConditionLevels;
import org.trebleproof.bench.model.KnownCoil;
import org.trebleproof.fit.InformationRows;
import org.trebleproof.fit.LinearNuisance;
import org.trebleproof.fit.ResidualModel;

/**
 * What the strikes say of the parts, with departures of one size and what sets sessions apart
 * integrated out.
 */
final class StrikeResiduals implements ResidualModel {

  private final ConditionLevels levels;
  private final SmoothDeparture shapes;
  private final Optional<KnownCoil> known;
  private final double departure;
  private final SessionSpread session;
  private final LinearNuisance nuisance;
  private final double[][] root;
  private final double[] target;
  private final double[] hz;

  /**
   * @param levels of the circuits
   * @param shapes of the departure
   * @param known what is known of the coil from an earlier fit
   * @param outcome what the strikes say
   * @param rows the same as rows
   * @param departure its standard deviation [dB]
   * @param session by how much sessions differ
   */
  StrikeResiduals(
      ConditionLevels levels,
      SmoothDeparture shapes,
      Optional<KnownCoil> known,
      StrikeComparison.Outcome outcome,
      InformationRows rows,
      double departure,
      SessionSpread session) {
    this.levels = levels;
    this.shapes = shapes;
    this.known = known;
    this.departure = departure;
    this.session = session;
    this.hz = outcome.hz();
    int knots = hz.length;
    double[][] apart = session.root(outcome.own());
    int sessions = outcome.sessions();
    int extras = shapes.unknowns();
    double[][] design = new double[rows.root().length][extras + sessions * apart[0].length];
    for (int c = 0; c < levels.curves(); c++) {
      for (int k = 0; k < knots; k++) {
        double[] e = shapes.at(hz[k], c, departure);
        for (int r = 0; r < design.length; r++) {
          double w = rows.root()[r][c * knots + k];
          for (int i = 0; i < e.length; i++) {
            design[r][i] += w * e[i];
          }
        }
      }
    }
    for (int r = 0; r < design.length; r++) {
      for (int c = 0; c < sessions; c++) {
        for (int k = 0; k < apart.length; k++) {
          double w = rows.root()[r][levels.curves() * knots + c * apart.length + k];
          for (int i = 0; i < apart[k].length; i++) {
            design[r][extras + c * apart[k].length + i] += w * apart[k][i];
          }
        }
      }
    }
    this.nuisance = new LinearNuisance(design);
    double[] expected = shapes.expected();
    double[] rest = rows.target().clone();
    for (int r = 0; r < rest.length; r++) {
      for (int i = 0; i < expected.length; i++) {
        rest[r] -= design[r][i] * expected[i];
      }
    }
    this.root =
        nuisance.whiten(
            Arrays.stream(rows.root())
                .map(row -> Arrays.copyOf(row, levels.curves() * knots))
                .toArray(double[][]::new));
    this.target = nuisance.whiten(rest);
  }

  double departure() {
    return departure;
  }

  SessionSpread session() {
    return session;
  }

  /** Twice the part of minus the logarithm of the evidence that the unknowns taken out make up. */
  double logDeterminant() {
    return nuisance.logDeterminant();
  }

  /** With other information, or another spread of sessions. */
  StrikeResiduals with(
      StrikeComparison.Outcome outcome, InformationRows rows, SessionSpread other) {
    return new StrikeResiduals(levels, shapes, known, outcome, rows, departure, other);
  }

  @Override
  public int size() {
    return root.length + known.map(k -> k.root().length).orElse(0);
  }

  @Override
  public void evaluate(double[] x, double[] residual, double[][] jacobian) {
    known.ifPresent(k -> k.evaluate(x, residual, jacobian, root.length));
    int knots = hz.length;
    double[][] gradient = jacobian == null ? null : new double[x.length][levels.curves() * knots];
    double[] level = new double[levels.curves() * knots];
    for (int c = 0; c < levels.curves(); c++) {
      double[][] part = gradient == null ? null : new double[x.length][knots];
      System.arraycopy(levels.of(x, hz, c, part), 0, level, c * knots, knots);
      for (int p = 0; gradient != null && p < x.length; p++) {
        System.arraycopy(part[p], 0, gradient[p], c * knots, knots);
      }
    }
    for (int r = 0; r < root.length; r++) {
      residual[r] = RowProducts.product(level, root[r]) - target[r];
    }
    if (jacobian != null) {
      double[][] slopes = RowProducts.of(root, gradient);
      for (int r = 0; r < root.length; r++) {
        System.arraycopy(slopes[r], 0, jacobian[r], 0, x.length);
      }
    }
  }

  /** The departure that goes with these coordinates, in the units of {@link SmoothDeparture}. */
  double[] departing(double[] x) {
    double[] residual = new double[size()];
    evaluate(x, residual, null);
    double[] departing = nuisance.expected(Arrays.copyOf(residual, root.length));
    double[] expected = shapes.expected();
    for (int k = 0; k < expected.length; k++) {
      departing[k] += expected[k];
    }
    return Arrays.copyOf(departing, expected.length);
  }

  /**
   * A curve with its departure for each of several sets of coordinates [dB].
   *
   * @param departing what goes with each
   */
  List<double[]> levels(List<double[]> xs, List<double[]> departing, double[] at, int curve) {
    double[][] extras =
        Arrays.stream(at).mapToObj(f -> shapes.at(f, curve, departure)).toArray(double[][]::new);
    return IntStream.range(0, xs.size())
        .parallel()
        .mapToObj(
            n -> {
              double[] level = levels.of(xs.get(n), at, curve, null);
              for (int i = 0; i < at.length; i++) {
                level[i] += RowProducts.product(extras[i], departing.get(n));
              }
              return level;
            })
        .toList();
  }

  /** Variance that a curve keeps when the parts are known [dB^2]. */
  double[] variance(double[] at, int curve) {
    int unknowns = nuisance.unknowns();
    return Arrays.stream(at)
        .map(f -> nuisance.variance(Arrays.copyOf(shapes.at(f, curve, departure), unknowns)))
        .toArray();
  }

  /** Derivatives of a curve by the coordinates, the departure following them. */
  double[][] gradient(double[] x, double[] at, int curve) {
    double[][] byCoordinate = new double[x.length][at.length];
    levels.of(x, at, curve, byCoordinate);
    double[][] gradient = RowProducts.transposed(byCoordinate);
    double[][] jacobian = new double[size()][x.length];
    evaluate(x, new double[size()], jacobian);
    for (int p = 0; p < x.length; p++) {
      double[] column = new double[root.length];
      for (int r = 0; r < column.length; r++) {
        column[r] = jacobian[r][p];
      }
      double[] extras = nuisance.expected(column);
      for (int i = 0; i < at.length; i++) {
        double[] e = shapes.at(at[i], curve, departure);
        for (int k = 0; k < e.length; k++) {
          gradient[i][p] += e[k] * extras[k];
        }
      }
    }
    return gradient;
  }
}
