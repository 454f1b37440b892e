package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.ToDoubleFunction;

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

  /** Ordinary change of a steady hum between two recordings, relative (1 dB). */
  private static final double UNSTEADY = 0.25;

  /** The same where a touch or a turn moved it: falls and turns are tried in coarse steps. */
  private static final double MOVED = 0.45;

  /** A pot's end resistance lets through this share of the power at zero. */
  private static final double POT_REST = 3e-4;

  /** With no lead, this share may still get across. */
  private static final double LEAD_REST = 1e-5;

  /** Degrees of freedom of the scatter: fat tails, since a case never goes quite by the book. */
  private static final double TAILS = 4;

  /** Price of one more source, as a natural logarithm. */
  private static final double PRICE = 4;

  /** Price of both ways of the electric field at once: grounded strings that are not grounded. */
  private static final double CONTRADICTION = 3;

  /** How much a spectrum's shape counts, as a natural logarithm. */
  private static final double LEANING = 0.15;

  /** Two sources that all but cancel each other take many steps. */
  private static final int ROUNDS_OF_PAIRS = 40;

  private static final int ROUNDS = 12;

  /** A round that moves the powers by less than this share of the largest is the last. */
  private static final double SETTLED = 1e-9;

  /** A group whose powers are less likely than this deserves a search (natural logarithm). */
  private static final double UNEXPLAINED = 3;

  /** Sources cancel each other by chance in so many groups at most. */
  private static final int MOST_BEATS = 3;

  private final List<HumState> states;
  private final double[][] power;
  private final double[][] sd;
  private final double[] highness;
  private final double[][] weight;

  /** Variance that does not depend on what is expected: noise, and what a pot or a lead lets by. */
  private final double[][] fixed;

  /** Relative standard deviation of a power by itself. */
  private final double[][] unsteady;

  private final Map<NoiseSource, Double> probability = new EnumMap<>(NoiseSource.class);
  private final double evidence;
  private final Weighed best;

  /**
   * Weighs the sets.
   *
   * @param states the states recorded
   * @param power power of each group of harmonics in each state, [state][group]
   * @param sd standard deviations of the powers
   */
  SourceMixture(List<HumState> states, double[][] power, double[][] sd) {
    this.states = List.copyOf(states);
    this.power = power;
    this.sd = sd;
    this.highness = StateClues.REACHING_UP;
    this.weight = new double[highness.length][];
    this.fixed = new double[highness.length][states.size()];
    this.unsteady = new double[highness.length][states.size()];
    for (int group = 0; group < weight.length; group++) {
      weight[group] = weights(group);
    }
    List<Weighed> sets = sets().parallelStream().map(this::weigh).toList();
    Weighed most = sets.get(0);
    for (Weighed set : sets) {
      most = set.log() > most.log() ? set : most;
    }
    best = most;
    double total = 0;
    for (Weighed set : sets) {
      double weight = Math.exp(set.log() - best.log());
      total += weight;
      set.sources().forEach(source -> probability.merge(source, weight, Double::sum));
    }
    double sum = total;
    evidence = best.log() + Math.log(total);
    probability.replaceAll((source, weight) -> weight / sum);
  }

  /**
   * A set of sources fitted.
   *
   * @param log logarithm of its weight
   * @param sources the sources
   * @param spectra power of each in each group, hands off
   */
  private record Weighed(
      double log, Set<NoiseSource> sources, Map<NoiseSource, double[]> spectra) {}

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
    return EnumSet.copyOf(best.sources());
  }

  /** Power of a source in each group, hands off, in the fit of the set that explains most. */
  double[] spectrum(NoiseSource source) {
    return best.spectra().getOrDefault(source, new double[highness.length]);
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

  /** Weighs a set: its likelihood along its best pattern, less its price. */
  private Weighed weigh(Set<NoiseSource> set) {
    NoiseSource[] sources = set.toArray(new NoiseSource[0]);
    List<double[][]> factors = new ArrayList<>();
    int combinations = 1;
    boolean both = set.contains(NoiseSource.BODY) && set.contains(NoiseSource.OPEN_STRINGS);
    for (NoiseSource source : sources) {
      List<Map<HumState, Double>> patterns =
          (both || set.size() > 2) && source.electric() ? source.fewPatterns() : source.patterns();
      double[][] ofSource =
          patterns.stream()
              .map(p -> states.stream().map(p::get).toList())
              .distinct()
              .map(p -> p.stream().mapToDouble(Double::doubleValue).toArray())
              .toArray(double[][]::new);
      factors.add(ofSource);
      combinations *= ofSource.length;
    }
    double top = Double.NEGATIVE_INFINITY;
    double[][] bestAmounts = null;
    double[][] bestFactor = null;
    for (int c = 0; c < combinations; c++) {
      double[][] factor = new double[sources.length][];
      int rest = c;
      for (int s = 0; s < sources.length; s++) {
        factor[s] = factors.get(s)[rest % factors.get(s).length];
        rest /= factors.get(s).length;
      }
      double[][] amounts = new double[highness.length][];
      double log = logLikelihood(sources, factor, amounts, top);
      if (log > top) {
        top = log;
        bestAmounts = amounts;
        bestFactor = factor;
      }
    }
    if (sources.length > 1) {
      top += searchBeats(columns(bestFactor), bestAmounts, sources.length);
    }
    double log = top - PRICE * sources.length;
    if (both) {
      log -= CONTRADICTION;
    }
    Map<NoiseSource, double[]> spectra = new EnumMap<>(NoiseSource.class);
    for (int s = 0; s < sources.length; s++) {
      double[] amount = new double[highness.length];
      for (int g = 0; g < amount.length; g++) {
        amount[g] = bestAmounts[g][s];
      }
      spectra.put(sources[s], amount);
    }
    return new Weighed(log, set, spectra);
  }

  /**
   * Fits anew the groups that least squares could not, since they weigh a state in which sources
   * cancel each other most.
   *
   * @return what the logarithm of the likelihood gains
   */
  private double searchBeats(double[][] columns, double[][] amounts, int n) {
    double[] before = new double[highness.length];
    int unexplained = 0;
    for (int g = 0; g < before.length; g++) {
      before[g] = cost(columns, amounts[g], n, g);
      unexplained += before[g] > UNEXPLAINED ? 1 : 0;
    }
    double gain = 0;
    for (int g = 0; unexplained <= MOST_BEATS && g < before.length; g++) {
      if (before[g] > UNEXPLAINED) {
        int group = g;
        double loudest = 0;
        for (double[] state : power) {
          loudest = Math.max(loudest, state[g]);
        }
        ToDoubleFunction<double[]> cost = amount -> cost(columns, amount, n, group);
        amounts[g] = BeatSearch.from(amounts[g], n, loudest, cost);
        gain += before[g] - cost.applyAsDouble(amounts[g]);
      }
    }
    return gain;
  }

  /** Minus the logarithm of the density of a group's powers and of the beats that explain them. */
  private double cost(double[][] columns, double[] amount, int n, int group) {
    double sum = chancePrice(amount, n, group);
    for (int state = 0; state < states.size(); state++) {
      sum += misfit(power[state][group], predicted(columns, amount, state), state, group);
    }
    return sum;
  }

  /** Logarithm of a pattern's likelihood; what cannot reach {@code least} is not followed up. */
  private double logLikelihood(
      NoiseSource[] sources, double[][] factor, double[][] amounts, double least) {
    double[][] columns = columns(factor);
    double sum = 0;
    double[] total = new double[sources.length];
    double[] high = new double[sources.length];
    for (int group = 0; group < highness.length; group++) {
      if (sum < least) {
        return Double.NEGATIVE_INFINITY;
      }
      double[] amount = new double[columns.length];
      amounts[group] = amount;
      descend(amount, columns, sources.length, weight[group], group);
      for (int s = 0; s < sources.length; s++) {
        total[s] += amount[s];
        high[s] += amount[s] * highness[group];
      }
      sum -= cost(columns, amount, sources.length, group);
    }
    for (int s = 0; s < sources.length; s++) {
      sum += spectrumLikelihood(sources[s], high[s] / (total[s] + Double.MIN_NORMAL));
    }
    return sum;
  }

  /**
   * Minus the logarithm of the density of a power where another was to be expected. What is
   * unsteady is unsteady in decibels, so its variance goes with the product of the two: a rise from
   * nothing is as odd as a fall to nothing.
   */
  private double misfit(double here, double expected, int state, int group) {
    double ordinary = unsteady[group][state];
    double variance =
        fixed[group][state]
            + ordinary * ordinary * Math.max(0, here) * Math.max(0, expected)
            + Double.MIN_NORMAL;
    double residual = here - expected;
    return (TAILS + 1) / 2 * Math.log1p(residual * residual / variance / TAILS);
  }

  /**
   * The sources' factors, and after them, for each pair, the root of the product of theirs: two
   * sources on the same mains keep their phase, and their beat term 2 a b cos(phase) goes from
   * state to state as the product of their amplitudes.
   */
  private static double[][] columns(double[][] factor) {
    int n = factor.length;
    double[][] columns = Arrays.copyOf(factor, n + n * (n - 1) / 2);
    int next = n;
    for (int a = 0; a < n; a++) {
      for (int b = a + 1; b < n; b++) {
        double[] column = new double[factor[a].length];
        for (int state = 0; state < column.length; state++) {
          column[state] = 2 * Math.sqrt(factor[a][state] * factor[b][state]);
        }
        columns[next++] = column;
      }
    }
    return columns;
  }

  /** Minus the logarithm of the density of the beat terms' mean cosines, about a normal one. */
  private static double chancePrice(double[] amount, int n, int group) {
    double price = 0;
    int next = n;
    for (int a = 0; a < n; a++) {
      for (int b = a + 1; b < n; b++) {
        double product = amount[a] * amount[b];
        double beat = amount[next++];
        price += product > 0 ? beat * beat / product * StateClues.LEADING_LINES[group] : 0;
      }
    }
    return price;
  }

  /** A mild leaning: magnetic hum sits in the lowest harmonics, an electric field's reaches up. */
  private static double spectrumLikelihood(NoiseSource source, double highShare) {
    double reachingUp = Math.min(1, highShare / 0.05);
    return switch (source) {
      case FIELD -> -LEANING * reachingUp;
      case BODY, OPEN_STRINGS -> -LEANING * (1 - reachingUp);
      case LOOP, RECORDER -> 0;
    };
  }

  private static double predicted(double[][] columns, double[] amount, int state) {
    double sum = 0;
    for (int c = 0; c < amount.length; c++) {
      sum += columns[c][state] * amount[c];
    }
    return sum;
  }

  /** One over the variance to be expected, the same for every set that is weighed. */
  private double[] weights(int group) {
    double loudest = 0;
    double reference = 0;
    for (int state = 0; state < states.size(); state++) {
      loudest = Math.max(loudest, power[state][group]);
      reference = states.get(state) == HumState.HANDS_OFF ? power[state][group] : reference;
    }
    double[] weight = new double[states.size()];
    for (int state = 0; state < weight.length; state++) {
      double here = Math.max(0, power[state][group]);
      double change = Math.abs(10 * Math.log10((here + 1e-9) / (reference + 1e-9)));
      HumState of = states.get(state);
      boolean moved = of != HumState.VOLUME_ZERO && reference > 0 && change > 2;
      unsteady[group][state] = moved ? MOVED : UNSTEADY;
      double ordinary = unsteady[group][state] * here;
      double rest =
          switch (of) {
            case VOLUME_ZERO -> POT_REST * loudest;
            case NO_LEAD -> LEAD_REST * loudest;
            default -> 0;
          };
      double noise = sd[state][group];
      fixed[group][state] = noise * noise + rest * rest;
      weight[state] = 1 / (fixed[group][state] + ordinary * ordinary + Double.MIN_NORMAL);
    }
    return weight;
  }

  /** Least squares by coordinate descent: sources not negative, beat terms within their bounds. */
  private void descend(double[] amount, double[][] columns, int n, double[] weight, int group) {
    int states = weight.length;
    double[] residual = new double[states];
    for (int state = 0; state < states; state++) {
      residual[state] = power[state][group] - predicted(columns, amount, state);
    }
    int rounds = n == 1 ? 1 : n == 2 ? ROUNDS_OF_PAIRS : ROUNDS;
    double moved = Double.MAX_VALUE;
    double most = 0;
    for (int round = 0; round < rounds && moved > SETTLED * most; round++) {
      moved = 0;
      for (int s = 0; s < n; s++) {
        moved += step(amount, columns, weight, residual, s, 0, 0, Double.MAX_VALUE);
        most = Math.max(most, amount[s]);
      }
      int next = n;
      for (int a = 0; a < n; a++) {
        for (int b = a + 1; b < n; b++) {
          double product = amount[a] * amount[b];
          double bound = Math.sqrt(product);
          double prior = 2 * StateClues.LEADING_LINES[group] / (product + Double.MIN_NORMAL);
          moved += step(amount, columns, weight, residual, next++, prior, -bound, bound);
        }
      }
    }
  }

  /** One coordinate's step; returns how far it went. */
  private static double step(
      double[] amount,
      double[][] columns,
      double[] weight,
      double[] residual,
      int c,
      double prior,
      double low,
      double high) {
    double[] column = columns[c];
    double up = 0;
    double down = prior;
    for (int state = 0; state < weight.length; state++) {
      double weighted = weight[state] * column[state];
      up += weighted * (residual[state] + column[state] * amount[c]);
      down += weighted * column[state];
    }
    double moved = down > 0 ? Math.max(low, Math.min(high, up / down)) : 0;
    double by = moved - amount[c];
    amount[c] = moved;
    for (int state = 0; state < weight.length; state++) {
      residual[state] -= column[state] * by;
    }
    return Math.abs(by);
  }
}
