package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * How well sets of noise sources explain the powers measured in the states, and so how probable
 * each source is.
 *
 * <p>Powers add (harmonics of different sources have no fixed phase to each other; what a chance
 * phase does is part of the expected scatter). Each source has its own spectrum, free in every
 * group of harmonics but not negative, and goes from state to state along one of its {@link
 * NoiseSource#patterns}. Every set of up to three sources is fitted; sets are weighed by their
 * likelihood, with a price per source.
 */
final class SourceMixture {

  /** Ordinary change of a steady hum between two recordings, relative (1.3 dB). */
  private static final double UNSTEADY = 0.3;

  /** A pot's end resistance lets through this share of the power at zero. */
  private static final double POT_REST = 3e-4;

  /** With no lead, this share may still get across. */
  private static final double LEAD_REST = 1e-5;

  /** Degrees of freedom of the scatter: fat tails, since a case never goes quite by the book. */
  private static final double TAILS = 4;

  /** Price of one more source, as a natural logarithm. */
  private static final double PRICE = 5;

  /** Price of both ways of the electric field at once: grounded strings that are not grounded. */
  private static final double CONTRADICTION = 3;

  private final List<HumState> states;
  private final double[][] power;
  private final double[][] sd;
  private final double[] highness;
  private final Map<NoiseSource, Double> probability = new EnumMap<>(NoiseSource.class);
  private final Map<NoiseSource, double[]> spectrum = new EnumMap<>(NoiseSource.class);
  private final double evidence;
  private double bestLog = Double.NEGATIVE_INFINITY;
  private Set<NoiseSource> bestSet = EnumSet.noneOf(NoiseSource.class);

  /**
   * Weighs the sets.
   *
   * @param states the states recorded
   * @param power power of each group of harmonics in each state, [state][group]
   * @param sd standard deviations of the powers
   * @param reachingUp for each group, 0 for the lowest harmonics to 1 for the buzz
   */
  SourceMixture(List<HumState> states, double[][] power, double[][] sd, double[] reachingUp) {
    this.states = List.copyOf(states);
    this.power = power;
    this.sd = sd;
    this.highness = reachingUp;
    List<Set<NoiseSource>> sets = sets();
    double[] logs = new double[sets.size()];
    double top = Double.NEGATIVE_INFINITY;
    for (int i = 0; i < logs.length; i++) {
      logs[i] = weigh(sets.get(i));
      top = Math.max(top, logs[i]);
    }
    double total = 0;
    for (int i = 0; i < logs.length; i++) {
      double weight = Math.exp(logs[i] - top);
      total += weight;
      sets.get(i).forEach(source -> probability.merge(source, weight, Double::sum));
    }
    double sum = total;
    evidence = top + Math.log(total);
    probability.replaceAll((source, weight) -> weight / sum);
  }

  /** Logarithm of the weight of all sets together. */
  double evidence() {
    return evidence;
  }

  /** Probability that a source is among those heard. */
  double probability(NoiseSource source) {
    return probability.getOrDefault(source, 0.0);
  }

  /** The set that explains most. */
  Set<NoiseSource> best() {
    return EnumSet.copyOf(bestSet);
  }

  /** Power of a source in each group, hands off, in the best fit of the best set that has it. */
  double[] spectrum(NoiseSource source) {
    return spectrum.getOrDefault(source, new double[highness.length]);
  }

  private static List<Set<NoiseSource>> sets() {
    List<Set<NoiseSource>> sets = new ArrayList<>();
    for (int bits = 1; bits < 1 << NoiseSource.values().length; bits++) {
      Set<NoiseSource> set = EnumSet.noneOf(NoiseSource.class);
      for (NoiseSource source : NoiseSource.values()) {
        if ((bits >> source.ordinal() & 1) != 0) {
          set.add(source);
        }
      }
      boolean both = set.contains(NoiseSource.BODY) && set.contains(NoiseSource.OPEN_STRINGS);
      if (set.size() <= (both ? 2 : 3)) {
        sets.add(set);
      }
    }
    return sets;
  }

  /** Logarithm of a set's weight: mean likelihood over its patterns, less its price. */
  private double weigh(Set<NoiseSource> set) {
    NoiseSource[] sources = set.toArray(new NoiseSource[0]);
    List<double[][]> factors = new ArrayList<>();
    int combinations = 1;
    for (NoiseSource source : sources) {
      double[][] ofSource =
          source.patterns().stream()
              .map(p -> states.stream().mapToDouble(p::get).toArray())
              .toArray(double[][]::new);
      factors.add(ofSource);
      combinations *= ofSource.length;
    }
    double[] logs = new double[combinations];
    double top = Double.NEGATIVE_INFINITY;
    double[][] bestAmounts = null;
    for (int c = 0; c < combinations; c++) {
      double[][] factor = new double[sources.length][];
      int rest = c;
      for (int s = 0; s < sources.length; s++) {
        factor[s] = factors.get(s)[rest % factors.get(s).length];
        rest /= factors.get(s).length;
      }
      double[][] amounts = new double[highness.length][];
      logs[c] = logLikelihood(sources, factor, amounts);
      if (logs[c] > top) {
        top = logs[c];
        bestAmounts = amounts;
      }
    }
    double mean = 0;
    for (double log : logs) {
      mean += Math.exp(log - top) / combinations;
    }
    double log = top + Math.log(mean) - PRICE * sources.length;
    if (set.contains(NoiseSource.BODY) && set.contains(NoiseSource.OPEN_STRINGS)) {
      log -= CONTRADICTION;
    }
    if (log > bestLog) {
      bestLog = log;
      bestSet = EnumSet.copyOf(set);
      spectrum.clear();
      for (int s = 0; s < sources.length; s++) {
        double[] amount = new double[highness.length];
        for (int g = 0; g < amount.length; g++) {
          amount[g] = bestAmounts[g][s];
        }
        spectrum.put(sources[s], amount);
      }
    }
    return log;
  }

  private double logLikelihood(NoiseSource[] sources, double[][] factor, double[][] amounts) {
    double sum = 0;
    double[] total = new double[sources.length];
    double[] high = new double[sources.length];
    for (int group = 0; group < highness.length; group++) {
      double[] amount = fitGroup(sources, factor, group);
      amounts[group] = amount;
      for (int s = 0; s < sources.length; s++) {
        total[s] += amount[s];
        high[s] += amount[s] * highness[group];
      }
      double guitar = guitarPower(sources, amount);
      for (int state = 0; state < states.size(); state++) {
        double variance = variance(factor, amount, group, state, guitar);
        double residual = power[state][group] - predicted(factor, amount, state);
        sum -=
            (TAILS + 1) / 2 * Math.log1p(residual * residual / (TAILS * variance))
                + 0.5 * Math.log(variance);
      }
    }
    for (int s = 0; s < sources.length; s++) {
      sum += spectrumLikelihood(sources[s], high[s] / (total[s] + Double.MIN_NORMAL));
    }
    return sum;
  }

  /** A mild leaning: magnetic hum sits in the lowest harmonics, an electric field's reaches up. */
  private static double spectrumLikelihood(NoiseSource source, double highShare) {
    double reachingUp = Math.min(1, highShare / 0.05);
    return switch (source) {
      case FIELD -> -0.8 * reachingUp;
      case BODY, OPEN_STRINGS -> -0.8 * (1 - reachingUp);
      case LOOP, RECORDER -> 0;
    };
  }

  private static double guitarPower(NoiseSource[] sources, double[] amount) {
    double guitar = 0;
    for (int s = 0; s < sources.length; s++) {
      guitar += sources[s].inGuitar() ? amount[s] : 0;
    }
    return guitar;
  }

  private double predicted(double[][] factor, double[] amount, int state) {
    double sum = 0;
    for (int s = 0; s < amount.length; s++) {
      sum += factor[s][state] * amount[s];
    }
    return sum;
  }

  private double variance(double[][] factor, double[] amount, int group, int state, double guitar) {
    double predicted = 0;
    double squares = 0;
    for (int s = 0; s < amount.length; s++) {
      double part = factor[s][state] * amount[s];
      predicted += part;
      squares += part * part;
    }
    // 2 P1 P2: variance of |a + b|^2 at random phase; groups of many lines average it
    double chance = (predicted * predicted - squares) / LINES[Math.min(group, LINES.length - 1)];
    double unsteady = UNSTEADY * predicted;
    double rest =
        switch (states.get(state)) {
          case VOLUME_ZERO -> POT_REST * guitar;
          case NO_LEAD -> LEAD_REST * guitar;
          default -> 0;
        };
    return sd[state][group] * sd[state][group]
        + unsteady * unsteady
        + chance
        + rest * rest
        + Double.MIN_NORMAL;
  }

  /** Lines in each group, of which a few lead. */
  private static final double[] LINES = {1, 1.5, 2, 3, 4, 6, 8};

  /** Non-negative least squares by coordinate descent, reweighted once by the fit itself. */
  private double[] fitGroup(NoiseSource[] sources, double[][] factor, int group) {
    int n = sources.length;
    double[] amount = new double[n];
    double[] weight = new double[states.size()];
    for (int state = 0; state < weight.length; state++) {
      double scale = UNSTEADY * Math.max(0, power[state][group]);
      weight[state] = 1 / (sd[state][group] * sd[state][group] + scale * scale);
    }
    for (int pass = 0; pass < 2; pass++) {
      descend(amount, factor, weight, group);
      double guitar = guitarPower(sources, amount);
      for (int state = 0; state < weight.length && pass == 0; state++) {
        weight[state] = 1 / variance(factor, amount, group, state, guitar);
      }
    }
    return amount;
  }

  private void descend(double[] amount, double[][] factor, double[] weight, int group) {
    int rounds = amount.length == 1 ? 1 : 25;
    for (int round = 0; round < rounds; round++) {
      for (int s = 0; s < amount.length; s++) {
        double up = 0;
        double down = 0;
        for (int state = 0; state < weight.length; state++) {
          double others = predicted(factor, amount, state) - factor[s][state] * amount[s];
          up += weight[state] * factor[s][state] * (power[state][group] - others);
          down += weight[state] * factor[s][state] * factor[s][state];
        }
        amount[s] = down > 0 ? Math.max(0, up / down) : 0;
      }
    }
  }
}
