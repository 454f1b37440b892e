package org.trebleproof.bench.strike;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class HeardLevelsTest {

  private static final int STRIKES = 60;
  private static final double SCATTER = 3;

  /** Usual levels of partials 1 to 3 under two conditions; only the third is too quiet. */
  private static final double[][] USUAL = {{-10, -62.5, -70}, {-10, -66.5, -74}};

  private static StrikeNotes notes(double noise) {
    long seed = 5;
    System.out.println("seed " + seed);
    SplittableRandom random = new SplittableRandom(seed);
    List<StrikeNotes.Strike> strikes = new ArrayList<>();
    for (int c = 0; c < 2; c++) {
      for (int s = 0; s < STRIKES; s++) {
        List<StrikeNotes.Level> levels = new ArrayList<>();
        for (int k = 0; k < 3; k++) {
          double level = USUAL[c][k] + (k == 0 ? 0 : SCATTER * random.nextGaussian());
          double share = Math.pow(10, (noise - level) / 20);
          levels.add(new StrikeNotes.Level(k + 1, 110 * (k + 1), level, share));
        }
        strikes.add(new StrikeNotes.Strike(c, levels));
      }
    }
    return new StrikeNotes(
        2,
        List.of(new StrikeNotes.Note(110, strikes)),
        0,
        List.of(new double[] {110}, new double[] {110}),
        List.of(STRIKES, STRIKES));
  }

  /** The scatter's own uncertainty allows four standard deviations. */
  @Test
  void leavingOutTheQuietOnesDoesNotMakeTheRestLoud() {
    StrikeNotes notes = notes(-200);
    HeardLevels heard = new HeardLevels(notes);
    double[] sum = new double[2];
    int[] count = new int[2];
    for (StrikeNotes.Strike strike : notes.notes().get(0).strikes()) {
      for (HeardLevels.Heard level : heard.of(0, strike)) {
        assertTrue(level.number() < 3, "the third partial is too quiet as a whole");
        if (level.number() == 2) {
          sum[strike.condition()] += level.level();
          count[strike.condition()]++;
        }
      }
    }
    assertEquals(STRIKES, count[0]);
    assertEquals(STRIKES, count[1]);
    assertEquals(-4, sum[1] / STRIKES - sum[0] / STRIKES, 4 * SCATTER * Math.sqrt(2.0 / STRIKES));
  }

  /** What noise adds to a level and how sure that is does not depend on how the level came out. */
  @Test
  void noiseCountsBesideTheUsualLevel() {
    StrikeNotes notes = notes(-76);
    HeardLevels heard = new HeardLevels(notes);
    double[] variances =
        notes.notes().get(0).strikes().stream()
            .filter(s -> s.condition() == 0)
            .flatMap(s -> heard.of(0, s).stream())
            .filter(l -> l.number() == 2)
            .mapToDouble(HeardLevels.Heard::variance)
            .distinct()
            .toArray();
    double share = Math.pow(10, (-76 - USUAL[0][1]) / 20);
    for (double variance : variances) {
      assertEquals(20 / Math.log(10) * share / Math.sqrt(2), Math.sqrt(variance), 0.3);
    }
  }
}
