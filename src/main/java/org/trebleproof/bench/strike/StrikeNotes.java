package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.trebleproof.signal.strike.BroadbandLevels;
import org.trebleproof.signal.strike.PartialSeries;

/**
 * Strikes sorted by what was struck: strings by pitch, and scrapes and strums together. Only what
 * was struck under every condition can be compared.
 *
 * @param conditions how many conditions there are
 * @param notes what was struck under every condition, by ascending pitch; a scrape last
 * @param left strikes whose note is missing under some condition
 * @param pitches fundamentals heard under each condition
 * @param usable strikes under each condition, matched or not
 */
record StrikeNotes(
    int conditions, List<Note> notes, int left, List<double[]> pitches, List<Integer> usable) {

  /** A guitar put out of tune by less than this is still the same note [cent]. */
  static final double SAME = 60;

  StrikeNotes {
    notes = List.copyOf(notes);
    pitches = List.copyOf(pitches);
    usable = List.copyOf(usable);
  }

  /**
   * One note.
   *
   * @param hz its fundamental, middle of its strikes [Hz]; 0 for scrapes
   * @param strikes under any condition
   */
  record Note(double hz, List<Strike> strikes) {
    Note {
      strikes = List.copyOf(strikes);
    }

    boolean pitched() {
      return hz > 0;
    }
  }

  /**
   * One strike as levels.
   *
   * @param condition under which it was struck
   * @param levels by partial number, or band number for a scrape
   */
  record Strike(int condition, List<Level> levels) {
    Strike {
      levels = List.copyOf(levels);
    }
  }

  /** Level [dB] of a partial or band, with the share of noise in its amplitude. */
  record Level(int number, double hz, double level, double noise) {}

  private record Heard(int condition, double hz, StrikeTake.Strike strike) {}

  /**
   * Sorts and matches.
   *
   * @param takes by condition
   */
  static StrikeNotes of(List<List<StrikeTake>> takes) {
    List<Heard> strings = new ArrayList<>();
    List<Heard> scrapes = new ArrayList<>();
    for (int c = 0; c < takes.size(); c++) {
      for (StrikeTake take : takes.get(c)) {
        for (StrikeTake.Strike s : take.strikes()) {
          int condition = c;
          s.string()
              .ifPresentOrElse(
                  p -> strings.add(new Heard(condition, p.hz(), s)),
                  () -> scrapes.add(new Heard(condition, 0, s)));
        }
      }
    }
    strings.sort(Comparator.comparingDouble(Heard::hz));
    List<List<Heard>> clusters = new ArrayList<>();
    for (Heard h : strings) {
      List<Heard> last = clusters.isEmpty() ? null : clusters.get(clusters.size() - 1);
      if (last == null || cents(last.get(last.size() - 1).hz, h.hz) > SAME) {
        clusters.add(new ArrayList<>());
      }
      clusters.get(clusters.size() - 1).add(h);
    }
    if (!scrapes.isEmpty()) {
      clusters.add(scrapes);
    }
    List<Note> notes = new ArrayList<>();
    int left = 0;
    List<double[]> pitches = new ArrayList<>();
    for (int c = 0; c < takes.size(); c++) {
      int condition = c;
      pitches.add(
          clusters.stream()
              .filter(k -> k.get(0).hz > 0)
              .filter(k -> k.stream().anyMatch(h -> h.condition == condition))
              .mapToDouble(k -> k.get(k.size() / 2).hz)
              .toArray());
    }
    for (List<Heard> cluster : clusters) {
      long present = cluster.stream().mapToInt(Heard::condition).distinct().count();
      if (present < takes.size()) {
        left += cluster.size();
      } else {
        notes.add(
            new Note(
                cluster.get(cluster.size() / 2).hz,
                cluster.stream().map(StrikeNotes::levels).toList()));
      }
    }
    return new StrikeNotes(
        takes.size(),
        notes,
        left,
        pitches,
        takes.stream().map(c -> c.stream().mapToInt(t -> t.strikes().size()).sum()).toList());
  }

  /** From one pitch to another. */
  static double cents(double low, double high) {
    return 1200 * Math.log(high / low) / Math.log(2);
  }

  private static Strike levels(Heard heard) {
    List<Level> levels = new ArrayList<>();
    if (heard.hz > 0) {
      for (PartialSeries.Partial p : heard.strike.string().orElseThrow().partials()) {
        levels.add(new Level(p.number(), p.hz(), p.level(), p.noise()));
      }
    } else {
      int n = 0;
      for (BroadbandLevels.Band b : heard.strike.bands().orElseThrow().bands()) {
        levels.add(new Level(n++, b.hz(), b.level(), b.noise()));
      }
    }
    return new Strike(heard.condition, levels);
  }

  /** How many strikes can be compared under a condition. */
  int strikes(int condition) {
    return (int)
        notes.stream()
            .flatMap(n -> n.strikes().stream())
            .filter(s -> s.condition() == condition)
            .count();
  }
}
