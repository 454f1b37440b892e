package org.trebleproof.shelf.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.apache.commons.math3.distribution.TDistribution;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.Unit;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/**
 * Whether two benches agree on the coils that both have measured.
 *
 * @param value compared
 * @param coils that both measured
 * @param offset second bench over first, as a ratio, or as a difference for levels
 * @param deviation standard deviation of a single coil's difference, on that scale
 * @param leastSeen the smallest offset that so many coils would show
 * @param coilsForHalf coils that it takes to see half of that
 */
public record BenchComparison(
    CoilValue value,
    List<String> coils,
    Estimate offset,
    double deviation,
    double leastSeen,
    int coilsForHalf) {

  private static final double LEVEL = 0.975;

  /** Whether they differ surely. */
  public boolean differ() {
    return !offset.contains(value.positive() ? 1 : 0);
  }

  /**
   * Compares two benches by one value; empty where fewer than two coils were measured on both.
   *
   * @param all measurements
   */
  public static Optional<BenchComparison> of(
      CoilValue value, String first, String second, List<ShelvedCoil> all) {
    Map<String, double[]> sums = new LinkedHashMap<>();
    for (ShelvedCoil c : all) {
      int side =
          c.circumstances().bench().equals(first)
              ? 0
              : c.circumstances().bench().equals(second) ? 2 : -1;
      Optional<Estimate> e = c.value(value);
      if (side >= 0 && e.isPresent() && c.state() == CoilState.GOOD) {
        double[] sum = sums.computeIfAbsent(c.name(), k -> new double[4]);
        sum[side] += BatchSheet.scaled(value, e.get().value());
        sum[side + 1]++;
      }
    }
    List<String> coils = new ArrayList<>();
    List<Double> differences = new ArrayList<>();
    sums.forEach(
        (name, s) -> {
          if (s[1] > 0 && s[3] > 0) {
            coils.add(name);
            differences.add(s[2] / s[3] - s[0] / s[1]);
          }
        });
    int n = differences.size();
    if (n < 2) {
      return Optional.empty();
    }
    double mean = differences.stream().mapToDouble(d -> d).average().orElseThrow();
    double square = differences.stream().mapToDouble(d -> (d - mean) * (d - mean)).sum();
    double deviation = Math.sqrt(square / (n - 1));
    double half = halfWidth(deviation, n);
    int needed = n;
    while (halfWidth(deviation, needed) > half / 2) {
      needed++;
    }
    Estimate offset =
        value.positive()
            ? new Estimate(
                Math.exp(mean),
                Math.exp(mean - half),
                Math.exp(mean + half),
                Unit.RATIO,
                Known.MEASURED)
            : new Estimate(mean, mean - half, mean + half, value.unit(), Known.MEASURED);
    return Optional.of(
        new BenchComparison(value, List.copyOf(coils), offset, deviation, half, needed));
  }

  /**
   * How far one value scatters on a bench and from bench to bench, over all coils that two benches
   * and one of them twice have measured; empty where there is none.
   */
  public static Optional<Precision> precision(CoilValue value, List<ShelvedCoil> all) {
    Map<String, Map<String, List<Double>>> byCoil = new LinkedHashMap<>();
    for (ShelvedCoil c : all) {
      Optional<Estimate> e = c.value(value);
      if (e.isPresent() && c.state() == CoilState.GOOD) {
        byCoil
            .computeIfAbsent(c.name(), k -> new LinkedHashMap<>())
            .computeIfAbsent(c.circumstances().bench(), k -> new ArrayList<>())
            .add(BatchSheet.scaled(value, e.get().value()));
      }
    }
    double[] sums = new double[3];
    for (Map<String, List<Double>> benches : byCoil.values()) {
      int count = benches.values().stream().mapToInt(List::size).sum();
      if (benches.size() > 1 && count > benches.size()) {
        Precision p =
            Precision.of(
                benches.values().stream()
                    .map(l -> l.stream().mapToDouble(d -> d).toArray())
                    .toList());
        sums[0]++;
        sums[1] += p.repeatability() * p.repeatability();
        sums[2] += p.between() * p.between();
      }
    }
    return sums[0] == 0
        ? Optional.empty()
        : Optional.of(
            new Precision(Double.NaN, Math.sqrt(sums[1] / sums[0]), Math.sqrt(sums[2] / sums[0])));
  }

  /** Half the 95 % interval of the mean of n differences (Student). */
  private static double halfWidth(double deviation, int n) {
    return new TDistribution(null, n - 1).inverseCumulativeProbability(LEVEL)
        * deviation
        / Math.sqrt(n);
  }
}
