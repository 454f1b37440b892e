package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Which levels of partials and bands are loud enough to be believed. That is decided by how loud a
 * partial of a note usually is, never by how loud it happens to be in one strike: leaving out the
 * quiet ones of a few would make what is left too loud, and most so under the condition that takes
 * treble away.
 */
final class HeardLevels {

  /** Levels with this share of something else in them are left out. */
  static final double DROWNED = 0.35;

  /**
   * Levels so far below the strike's strongest are those of gaps in what the pick puts in, of other
   * strings and of the hand; common practice, no source [dB].
   */
  private static final double DEEPEST = 55;

  private static final double LOWEST_HZ = 62;
  private static final double HIGHEST_HZ = 11500;
  private static final double DECIBEL = 20 / Math.log(10);

  private final Map<Long, double[]> usual = new HashMap<>();

  /**
   * One level.
   *
   * @param number of the partial or band
   * @param hz its frequency [Hz]
   * @param level without the power that noise adds to it [dB]
   * @param variance that the noise gives it [dB^2]
   * @param drowned whether what was there before the strike is too loud beside it
   */
  record Heard(int number, double hz, double level, double variance, boolean drowned) {}

  HeardLevels(StrikeNotes notes) {
    for (int n = 0; n < notes.notes().size(); n++) {
      Map<Long, List<List<Double>>> relative = new HashMap<>();
      for (StrikeNotes.Strike strike : notes.notes().get(n).strikes()) {
        double strongest = strongest(strike);
        for (StrikeNotes.Level level : strike.levels()) {
          List<List<Double>> of =
              relative.computeIfAbsent(key(n, level), k -> empty(notes.conditions()));
          of.get(strike.condition()).add(level.level() - strongest);
        }
      }
      relative.forEach(
          (key, of) -> usual.put(key, of.stream().mapToDouble(HeardLevels::middle).toArray()));
    }
  }

  private static List<List<Double>> empty(int conditions) {
    List<List<Double>> lists = new ArrayList<>();
    for (int c = 0; c < conditions; c++) {
      lists.add(new ArrayList<>());
    }
    return lists;
  }

  private static long key(int note, StrikeNotes.Level level) {
    return note * 1000L + level.number();
  }

  private static double strongest(StrikeNotes.Strike strike) {
    return strike.levels().stream().mapToDouble(StrikeNotes.Level::level).max().orElse(0);
  }

  private static double middle(List<Double> values) {
    double[] sorted = values.stream().mapToDouble(Double::doubleValue).sorted().toArray();
    int n = sorted.length;
    return n == 0 ? Double.NaN : (sorted[(n - 1) / 2] + sorted[n / 2]) / 2;
  }

  /**
   * Those of one strike that are usually loud enough.
   *
   * @param note its place among the notes
   */
  List<Heard> of(int note, StrikeNotes.Strike strike) {
    double strongest = strongest(strike);
    List<Heard> heard = new ArrayList<>();
    for (StrikeNotes.Level level : strike.levels()) {
      double[] usually = usual.get(key(note, level));
      double all = Arrays.stream(usually).filter(u -> !Double.isNaN(u)).average().orElse(0);
      if (level.hz() < LOWEST_HZ || level.hz() > HIGHEST_HZ || all < -DEEPEST) {
        continue;
      }
      double expected = strongest + usually[strike.condition()];
      double share = level.noise() * Math.pow(10, (level.level() - expected) / 20);
      double sd = DECIBEL * share / Math.sqrt(2);
      heard.add(
          new Heard(
              level.number(),
              level.hz(),
              level.level() - DECIBEL / 2 * Math.log1p(share * share),
              sd * sd,
              share > DROWNED));
    }
    return heard;
  }
}
