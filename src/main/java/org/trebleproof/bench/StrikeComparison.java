package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.fit.MixedEffects;
import org.trebleproof.signal.PluckComb;

/**
 * What strikes say about the level of each condition over the first, frequency by frequency, before
 * anything is said about circuits.
 *
 * <p>The level of partial k of a note in one strike is: what that partial of that note has in every
 * strike, plus the condition's level over the first, plus the strike's own strength, colour (smooth
 * over frequency) and pluck place (a comb), plus noise. How much strikes differ in each of these is
 * learned from strikes of one note under one condition; the differences are then averaged out with
 * those variances. Under one condition alone, what the partials have in common is itself the level,
 * and it scatters about a smooth curve by as much as the data show.
 */
final class StrikeComparison {

  /** Knots of the level curves: eight to the octave. */
  static final double LOWEST_HZ = 60;

  private static final int PER_OCTAVE = 8;
  static final int KNOTS = 8 * PER_OCTAVE + 1;

  /**
   * Effects of each strike: strength, tilt, softness, bumps, pluck place. The bumps are narrow
   * enough for the gap that a pick's width leaves, which moves from strike to strike.
   */
  private static final double[] BUMPS = {
    250, 500, 1000, 1500, 1980, 2610, 3450, 4550, 6000, 7900, 10400
  };

  private static final double WIDE_BUMP = 0.8;
  private static final double NARROW_BUMP = 0.35;

  /** Bumps from here on are narrow [Hz]. */
  private static final double NARROW_FROM_HZ = 1400;

  private static final int STRETCH = 3 + 11;
  static final int SHAPES = STRETCH + 1;
  static final int STRENGTH = 0;
  static final int TILT = 1;
  static final int PLUCK = SHAPES;
  static final int OWN = SHAPES + 1;

  /** Share of the string in which the pluck's effect is counted. */
  static final double PLUCK_UNIT = 0.01;

  private static final double SOFTNESS_HZ = 6000;

  /** Curvature of a level curve between knots, beyond which none is plausible [dB]. */
  private static final double BEND = 1.2;

  /** Noise of a band of frequencies is learned in these [Hz]. */
  private static final double[] NOISE_EDGES = {0, 400, 1000, 2000, 4000, 1e9};

  /** Student's degrees of freedom: a few levels are far off for reasons of their own. */
  private static final double TAILS = 6;

  private static final int ROUNDS = 24;

  /** Covariances that change by less than this share are settled. */
  private static final double SETTLED = 0.02;

  /** The spectrum that all strikes share is looked at again every so many rounds, at first. */
  private static final int SLOPES = 4;

  /** Share by which a strike is stretched along frequency, as a unit. */
  private static final double STRETCH_UNIT = 0.1;

  /** Each partial has a scatter of its own, as if so many levels of the usual one had been seen. */
  private static final double ALIKE = 8;

  private static final double LEAST_SCATTER = 0.1;

  /**
   * Leakage, the second polarisation: an amplitude beside a partial's own, relative to a full one.
   */
  private static final double BESIDE = 0.04;

  private static final double COMB_FLOOR = 0.06;
  private static final double DECIBEL = 20 / Math.log(10);

  private final StrikeNotes notes;
  private final boolean absolute;
  private final List<Item> items = new ArrayList<>();
  private final List<Subject> subjects = new ArrayList<>();
  private int groups;
  private int drowned;
  private double[] slope = new double[KNOTS];
  private final PluckComb comb = new PluckComb(COMB_FLOOR);

  private record Item(int group, int subject, int number, double hz, double value, double prior) {}

  private record Subject(int note, int condition, boolean pitched) {}

  /**
   * What was found.
   *
   * @param hz knots [Hz]
   * @param information of the levels of condition 1, 2, ... over condition 0 at the knots, one
   *     after the other, and then of what sets the session of each apart from that of condition 0;
   *     of condition 0's own level when there is no other
   * @param noiseDecibel standard deviation of one level of one strike
   * @param own by how much strikes differ
   * @param partials each partial of each note under each condition
   * @param slope of the spectrum that all strikes share, at the knots [dB per e-fold of frequency]
   * @param drowned levels left out because something as loud was there before the strike
   * @param lowest lowest frequency with data [Hz]
   * @param highest highest
   */
  record Outcome(
      double[] hz,
      MixedEffects.Information information,
      double noiseDecibel,
      StrikeCovariance own,
      List<PartialMean> partials,
      double[] slope,
      int drowned,
      double lowest,
      double highest) {

    /** Number of effects by which sessions differ, in {@link #information}. */
    int sessionEffects() {
      return information.score().length % hz.length;
    }
  }

  /**
   * Level of a partial of a note under each condition, the strikes' own differences taken out.
   *
   * @param note fundamental [Hz]; 0 for a scrape
   * @param number partial or band
   * @param hz its frequency [Hz]
   * @param level under each condition [dB]; NaN where it was not heard
   * @param sd of each, from the scatter alone [dB]
   */
  record PartialMean(double note, int number, double hz, double[] level, double[] sd) {}

  private StrikeComparison(StrikeNotes notes) {
    this.notes = notes;
    this.absolute = notes.conditions() == 1;
    HeardLevels heard = new HeardLevels(notes);
    Map<Long, Integer> groupOf = new HashMap<>();
    for (int n = 0; n < notes.notes().size(); n++) {
      StrikeNotes.Note note = notes.notes().get(n);
      for (StrikeNotes.Strike strike : note.strikes()) {
        int subject = subjects.size();
        subjects.add(new Subject(n, strike.condition(), note.pitched()));
        for (HeardLevels.Heard level : heard.of(n, strike)) {
          if (level.drowned()) {
            drowned++;
          } else {
            int group = groupOf.computeIfAbsent(n * 1000L + level.number(), k -> groupOf.size());
            items.add(
                new Item(
                    group, subject, level.number(), level.hz(), level.level(), level.variance()));
          }
        }
      }
    }
    groups = groupOf.size();
    keepShared();
  }

  /** Partials that were heard under one condition only say nothing. */
  private void keepShared() {
    if (absolute) {
      return;
    }
    boolean[][] heard = new boolean[groups][notes.conditions()];
    for (Item i : items) {
      heard[i.group][subjects.get(i.subject).condition] = true;
    }
    items.removeIf(
        i -> {
          int count = 0;
          for (boolean h : heard[i.group]) {
            count += h ? 1 : 0;
          }
          return count < 2;
        });
  }

  static double[] knots() {
    double[] hz = new double[KNOTS];
    for (int k = 0; k < KNOTS; k++) {
      hz[k] = LOWEST_HZ * Math.pow(2, k / (double) PER_OCTAVE);
    }
    return hz;
  }

  /** Place of a frequency among the knots. */
  private static double knot(double hz) {
    return Math.max(
        0, Math.min(KNOTS - 1.001, PER_OCTAVE * Math.log(hz / LOWEST_HZ) / Math.log(2)));
  }

  private static double at(double[] curve, double hz) {
    double u = knot(hz);
    int below = (int) u;
    return curve[below] + (u - below) * (curve[below + 1] - curve[below]);
  }

  static Outcome of(StrikeNotes notes) {
    return new StrikeComparison(notes).run();
  }

  private static double[] shape(double hz, double[] slope) {
    double[] z = new double[OWN];
    z[0] = 1;
    z[1] = Math.log(hz / 700) / Math.log(2) / 2;
    double h = hz / SOFTNESS_HZ;
    z[2] = h * h / (1 + h * h) * 2;
    for (int b = 0; b < BUMPS.length; b++) {
      double width = BUMPS[b] < NARROW_FROM_HZ ? WIDE_BUMP : NARROW_BUMP;
      double x = Math.log(hz / BUMPS[b]) / Math.log(2) / width;
      z[3 + b] = Math.exp(-0.5 * x * x);
    }
    z[STRETCH] = STRETCH_UNIT * at(slope, hz);
    return z;
  }

  private int band(double hz) {
    int b = 0;
    while (hz >= NOISE_EDGES[b + 1]) {
      b++;
    }
    return b;
  }

  private Outcome run() {
    int curves = absolute ? 1 : notes.conditions() - 1;
    int noteEffects = absolute ? notes.notes().size() : 0;
    int sessions = absolute ? 0 : curves * SHAPES;
    int common = curves * KNOTS + sessions + noteEffects;
    double[] place = new double[subjects.size()];
    double[] middle = new double[notes.notes().size()];
    guessPlaces(place, middle);

    StrikeCovariance own = StrikeCovariance.guess();
    double groupVariance = absolute ? 25 : Double.POSITIVE_INFINITY;
    double[] noise = new double[NOISE_EDGES.length - 1];
    Arrays.fill(noise, 0.5);
    double[] scatter = new double[groups];
    Arrays.fill(scatter, 1);
    double[] tail = new double[items.size()];
    Arrays.fill(tail, 1);
    double[][] penalty = penalty(curves);
    MixedEffects.Fit fit = null;
    List<MixedEffects.Row> rows = List.of();
    MixedEffects.Variances v = null;
    for (int round = 0; round < ROUNDS; round++) {
      rows = rows(place, middle, curves, noteEffects);
      double[] variance = new double[items.size()];
      for (int i = 0; i < variance.length; i++) {
        Item item = items.get(i);
        variance[i] = variance(item, noise[band(item.hz)] * scatter[item.group], place) / tail[i];
      }
      v =
          new MixedEffects.Variances(
              variance, precision(own, curves, noteEffects), penalty, own.matrix(), groupVariance);
      fit = new MixedEffects(rows, groups, subjects.size(), common, OWN).solve(v);
      double[] weight = new double[noise.length];
      double[] square = new double[noise.length];
      double[] groupWeight = new double[groups];
      double[] groupSquare = new double[groups];
      for (int i = 0; i < variance.length; i++) {
        Item item = items.get(i);
        int b = band(item.hz);
        double plain = noise[b] * scatter[item.group];
        double base = variance(item, plain, place);
        double r2 = fit.residual()[i] * fit.residual()[i];
        double expected = Math.max(0.05, 1 - fit.leverage()[i]);
        tail[i] = (TAILS + 1) / (TAILS + r2 / base / expected);
        double share = plain / base;
        // moments, most from levels that hold little else than the common noise
        double moment = share * share * (tail[i] * r2 - expected * (base - plain));
        square[b] += moment / scatter[item.group];
        weight[b] += share * share * expected;
        groupSquare[item.group] += moment / noise[b];
        groupWeight[item.group] += share * share * expected;
      }
      for (int g = 0; g < groups; g++) {
        scatter[g] = Math.max(LEAST_SCATTER, (groupSquare[g] + ALIKE) / (groupWeight[g] + ALIKE));
      }
      double all = 0;
      double allWeight = 0;
      for (int b = 0; b < noise.length; b++) {
        all += square[b];
        allWeight += weight[b];
      }
      for (int b = 0; b < noise.length; b++) {
        double pooled = all / allWeight;
        noise[b] = Math.max(1e-2, (square[b] + 10 * pooled) / (weight[b] + 10));
      }
      StrikeCovariance now = StrikeCovariance.of(fit.ownMoment(), subjects.size());
      double moved = now.moved(own);
      own = now;
      if (absolute) {
        groupVariance = fit.groupSquare();
      }
      if (round % SLOPES == SLOPES - 1 && round < ROUNDS / 2) {
        slope = slope(fit.group());
      }
      double[] sum = new double[middle.length];
      double[] count = new double[middle.length];
      for (int s = 0; s < place.length; s++) {
        if (subjects.get(s).pitched) {
          int note = subjects.get(s).note;
          double to = middle[note] + PLUCK_UNIT * fit.own()[s][PLUCK];
          place[s] += Math.max(-0.004, Math.min(0.004, to - place[s]));
          place[s] = Math.max(0.02, Math.min(0.5, place[s]));
          sum[note] += place[s];
          count[note]++;
        }
      }
      for (int n = 0; n < middle.length; n++) {
        middle[n] = count[n] > 0 ? sum[n] / count[n] : 0;
      }
      if (round > ROUNDS / 2 && moved < SETTLED) {
        break;
      }
    }
    MixedEffects model = new MixedEffects(rows, groups, subjects.size(), common, OWN);
    double noiseSum = 0;
    for (double n : noise) {
      noiseSum += n / noise.length;
    }
    return new Outcome(
        knots(),
        model.information(v, curves * KNOTS + sessions),
        Math.sqrt(noiseSum),
        own,
        means(fit, rows, v),
        slope,
        drowned,
        items.stream().mapToDouble(Item::hz).min().orElse(0),
        items.stream().mapToDouble(Item::hz).max().orElse(0));
  }

  /** Of what the partials have in common, those heard. */
  private double[] slope(double[] level) {
    int[] first = new int[groups];
    Arrays.fill(first, -1);
    for (int i = 0; i < items.size(); i++) {
      int g = items.get(i).group;
      first[g] = first[g] < 0 ? i : first[g];
    }
    int[] used = Arrays.stream(first).filter(i -> i >= 0).toArray();
    return StrikeEnvelope.slope(
        PER_OCTAVE,
        KNOTS,
        Arrays.stream(used).mapToDouble(i -> knot(items.get(i).hz)).toArray(),
        Arrays.stream(used).map(i -> subjects.get(items.get(i).subject).note).toArray(),
        notes.notes().size(),
        Arrays.stream(used).mapToDouble(i -> level[items.get(i).group]).toArray());
  }

  private void guessPlaces(double[] place, double[] middle) {
    for (int n = 0; n < middle.length; n++) {
      if (!notes.notes().get(n).pitched()) {
        continue;
      }
      List<Integer> own = new ArrayList<>();
      for (int s = 0; s < subjects.size(); s++) {
        if (subjects.get(s).note == n) {
          own.add(s);
        }
      }
      int[][] numbers = new int[own.size()][];
      double[][] hz = new double[own.size()][];
      double[][] values = new double[own.size()][];
      for (int i = 0; i < own.size(); i++) {
        int subject = own.get(i);
        List<Item> mine = items.stream().filter(x -> x.subject == subject).toList();
        numbers[i] = mine.stream().mapToInt(Item::number).toArray();
        hz[i] = mine.stream().mapToDouble(Item::hz).toArray();
        values[i] = mine.stream().mapToDouble(Item::value).toArray();
      }
      PluckPlaces.Guess guess = new PluckPlaces(numbers, hz, values, comb).best();
      double sum = 0;
      for (int i = 0; i < own.size(); i++) {
        place[own.get(i)] = guess.places()[i];
        sum += guess.places()[i] / own.size();
      }
      middle[n] = sum;
    }
  }

  /** Noise of a level: common, from what was there before, and large in the comb's gaps. */
  private double variance(Item item, double noise, double[] place) {
    double gap = 0;
    if (subjects.get(item.subject).pitched) {
      double size = Math.pow(10, comb.level(item.number, place[item.subject]) / 20);
      gap = DECIBEL * BESIDE / Math.sqrt(2) / size;
    }
    return noise + item.prior + gap * gap;
  }

  private List<MixedEffects.Row> rows(
      double[] place, double[] middle, int curves, int noteEffects) {
    List<MixedEffects.Row> rows = new ArrayList<>(items.size());
    int sessions = absolute ? 0 : curves * SHAPES;
    for (Item item : items) {
      Subject subject = subjects.get(item.subject);
      double[] z = shape(item.hz, slope);
      double value = item.value;
      if (subject.pitched) {
        double at = place[item.subject];
        double slope = comb.slope(item.number, at);
        z[PLUCK] = slope * PLUCK_UNIT;
        value -= comb.level(item.number, at) + slope * (middle[subject.note] - at);
      }
      int curve = absolute ? 0 : subject.condition - 1;
      if (curve < 0) {
        rows.add(
            new MixedEffects.Row(item.group, item.subject, value, new int[0], new double[0], z));
        continue;
      }
      double u =
          Math.max(
              0, Math.min(KNOTS - 1.001, PER_OCTAVE * Math.log(item.hz / LOWEST_HZ) / Math.log(2)));
      int knot = (int) u;
      int extra = absolute ? 1 : SHAPES;
      int[] index = new int[2 + extra];
      double[] by = new double[2 + extra];
      index[0] = curve * KNOTS + knot;
      index[1] = index[0] + 1;
      by[0] = 1 - (u - knot);
      by[1] = u - knot;
      if (absolute) {
        index[2] = KNOTS + subject.note;
        by[2] = 1;
      } else {
        for (int k = 0; k < SHAPES; k++) {
          index[2 + k] = curves * KNOTS + curve * SHAPES + k;
          by[2 + k] = z[k];
        }
      }
      rows.add(new MixedEffects.Row(item.group, item.subject, value, index, by, z));
    }
    return rows;
  }

  private double[] precision(StrikeCovariance own, int curves, int noteEffects) {
    int sessions = absolute ? 0 : curves * SHAPES;
    double[] precision = new double[curves * KNOTS + sessions + noteEffects];
    for (int k = 0; k < curves * KNOTS; k++) {
      precision[k] = 1e-6;
    }
    for (int i = 0; i < sessions; i++) {
      int k = i % SHAPES;
      double sd = SessionSpread.USUAL.sd(k, own.sd(k));
      precision[curves * KNOTS + i] = 1 / (sd * sd);
    }
    for (int n = 0; n < noteEffects; n++) {
      precision[curves * KNOTS + n] = 1 / 100.0;
    }
    return precision;
  }

  private static double[][] penalty(int curves) {
    double[][] p = new double[curves * KNOTS][curves * KNOTS];
    double[] second = {1, -2, 1};
    for (int c = 0; c < curves; c++) {
      for (int k = 0; k + 2 < KNOTS; k++) {
        for (int a = 0; a < 3; a++) {
          for (int b = 0; b < 3; b++) {
            p[c * KNOTS + k + a][c * KNOTS + k + b] += second[a] * second[b] / BEND / BEND;
          }
        }
      }
    }
    return p;
  }

  private List<PartialMean> means(
      MixedEffects.Fit fit, List<MixedEffects.Row> rows, MixedEffects.Variances v) {
    int conditions = notes.conditions();
    Map<Integer, double[][]> sums = new java.util.TreeMap<>();
    Map<Integer, Item> first = new HashMap<>();
    for (int i = 0; i < rows.size(); i++) {
      MixedEffects.Row r = rows.get(i);
      Item item = items.get(i);
      double value = r.value();
      for (int k = 0; k < OWN; k++) {
        value -= r.own()[k] * fit.own()[r.subject()][k];
      }
      for (int k = absolute ? 2 : 2 + SHAPES; k < r.at().length; k++) {
        value -= r.by()[k] * fit.common()[r.at()[k]];
      }
      double[][] s = sums.computeIfAbsent(r.group(), g -> new double[conditions][2]);
      first.putIfAbsent(r.group(), item);
      double w = 1 / v.noise()[i];
      int c = subjects.get(item.subject).condition;
      s[c][0] += w * value;
      s[c][1] += w;
    }
    List<PartialMean> means = new ArrayList<>();
    sums.forEach(
        (group, s) -> {
          Item item = first.get(group);
          double[] level = new double[conditions];
          double[] sd = new double[conditions];
          for (int c = 0; c < conditions; c++) {
            level[c] = s[c][1] > 0 ? s[c][0] / s[c][1] : Double.NaN;
            sd[c] = s[c][1] > 0 ? 1 / Math.sqrt(s[c][1]) : Double.NaN;
          }
          means.add(
              new PartialMean(
                  notes.notes().get(subjects.get(item.subject).note).hz(),
                  item.number,
                  item.hz,
                  level,
                  sd));
        });
    means.sort(
        java.util.Comparator.comparingDouble(PartialMean::note)
            .thenComparingInt(PartialMean::number));
    return means;
  }

  /**
   * The partials of condition 1 with what sets its session's strikes apart from condition 0's taken
   * out, now that the difference is known: the smooth shape in which they differ from it.
   *
   * @param outcome what the strikes say
   * @param curve the difference at the knots [dB]
   * @param spread by how much sessions differ
   */
  static List<PartialMean> settled(Outcome outcome, double[] curve, SessionSpread spread) {
    double[][] left = new double[SHAPES][SHAPES];
    double[] right = new double[SHAPES];
    for (int k = 0; k < SHAPES; k++) {
      double sd = spread.sd(k, outcome.own.sd(k));
      left[k][k] = 1 / (sd * sd);
    }
    List<PartialMean> both =
        outcome.partials.stream().filter(p -> Double.isFinite(p.level[0] + p.level[1])).toList();
    for (PartialMean p : both) {
      double w = 1 / (p.sd[0] * p.sd[0] + p.sd[1] * p.sd[1]);
      double off = p.level[1] - p.level[0] - at(curve, p.hz);
      double[] z = shape(p.hz, outcome.slope);
      for (int k = 0; k < SHAPES; k++) {
        right[k] += w * z[k] * off;
        for (int m = 0; m <= k; m++) {
          left[k][m] += w * z[k] * z[m];
          left[m][k] = left[k][m];
        }
      }
    }
    double[] session =
        new org.apache.commons.math3.linear.CholeskyDecomposition(
                new org.apache.commons.math3.linear.Array2DRowRealMatrix(left, false))
            .getSolver()
            .solve(new org.apache.commons.math3.linear.ArrayRealVector(right, false))
            .toArray();
    return outcome.partials.stream()
        .map(
            p -> {
              double[] level = p.level.clone();
              double[] z = shape(p.hz, outcome.slope);
              for (int k = 0; k < SHAPES; k++) {
                level[1] -= z[k] * session[k];
              }
              return new PartialMean(p.note, p.number, p.hz, level, p.sd);
            })
        .toList();
  }
}
