package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The levels of all strikes that can be compared, one after the other.
 *
 * @param conditions how many conditions there are
 * @param notes fundamental of each note [Hz]; 0 for scrapes
 * @param items the levels
 * @param strikes what was struck
 * @param groups how many partials of notes there are
 * @param drowned levels left out because something as loud was there before the strike
 */
record StrikeLevels(
    int conditions,
    double[] notes,
    List<Item> items,
    List<Strike> strikes,
    int groups,
    int drowned) {

  /**
   * One level.
   *
   * @param group the partial of a note that it is of
   * @param strike the strike that it is of
   * @param number of the partial or band
   * @param hz its frequency [Hz]
   * @param value the level [dB]
   * @param noise variance that what was there before gives it [dB^2]
   */
  record Item(int group, int strike, int number, double hz, double value, double noise) {}

  /**
   * One strike.
   *
   * @param note its place among the notes
   * @param condition under which it was struck
   * @param pitched whether it has a pitch
   */
  record Strike(int note, int condition, boolean pitched) {}

  static StrikeLevels of(StrikeNotes notes) {
    HeardLevels heard = new HeardLevels(notes);
    List<Item> items = new ArrayList<>();
    List<Strike> strikes = new ArrayList<>();
    Map<Long, Integer> groupOf = new HashMap<>();
    int drowned = 0;
    for (int n = 0; n < notes.notes().size(); n++) {
      StrikeNotes.Note note = notes.notes().get(n);
      for (StrikeNotes.Strike strike : note.strikes()) {
        for (HeardLevels.Heard level : heard.of(n, strike)) {
          if (level.drowned()) {
            drowned++;
          } else {
            int group = groupOf.computeIfAbsent(n * 1000L + level.number(), k -> groupOf.size());
            items.add(
                new Item(
                    group,
                    strikes.size(),
                    level.number(),
                    level.hz(),
                    level.level(),
                    level.variance()));
          }
        }
        strikes.add(new Strike(n, strike.condition(), note.pitched()));
      }
    }
    return new StrikeLevels(
        notes.conditions(),
        notes.notes().stream().mapToDouble(StrikeNotes.Note::hz).toArray(),
        shared(items, strikes, groupOf.size(), notes.conditions()),
        strikes,
        groupOf.size(),
        drowned);
  }

  /** Partials that were heard under one condition only say nothing about others. */
  private static List<Item> shared(
      List<Item> items, List<Strike> strikes, int groups, int conditions) {
    if (conditions == 1) {
      return items;
    }
    boolean[][] heard = new boolean[groups][conditions];
    for (Item i : items) {
      heard[i.group][strikes.get(i.strike).condition] = true;
    }
    return items.stream()
        .filter(
            i -> {
              int count = 0;
              for (boolean h : heard[i.group]) {
                count += h ? 1 : 0;
              }
              return count > 1;
            })
        .toList();
  }

  Strike strike(Item item) {
    return strikes.get(item.strike);
  }

  /** Whether there is but one condition, whose own level is wanted. */
  boolean alone() {
    return conditions == 1;
  }

  double lowest() {
    return items.stream().mapToDouble(Item::hz).min().orElse(0);
  }

  double highest() {
    return items.stream().mapToDouble(Item::hz).max().orElse(0);
  }
}
