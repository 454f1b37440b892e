package org.trebleproof.bench.hum;

import java.util.Collection;
import java.util.Collections;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.signal.hum.BlockSpectra;
import org.trebleproof.signal.hum.ForeignSound;
import org.trebleproof.signal.hum.HumSpectrum;
import org.trebleproof.signal.hum.MainsSearch;
import org.trebleproof.signal.hum.QuietTake;
import org.trebleproof.signal.hum.RadioSounds;

/**
 * The recordings of one visit to a guitar, taken apart with one mains frequency.
 *
 * @param readings of what is silence
 * @param foreign what is heard in recordings that are none
 */
record VisitReading(List<StateReading> readings, Map<HumState, ForeignSound> foreign) {

  /** Where no mains is found, levels are read as if there were one of this frequency [Hz]. */
  private static final double NOMINAL = 50;

  /** Closer than this, the lobes of two lines overlap [Hz]. */
  private static final double LOBES_APART = 2 * BlockSpectra.LOBE / BlockSpectra.BLOCK;

  /** Wander of the mains between and within the recordings [Hz]. */
  private static final double WANDER = 0.004;

  /** How far the mains may be from where another recording had it [Hz]. */
  private static final double UNKNOWN = 0.015;

  VisitReading {
    readings = List.copyOf(readings);
    foreign = Collections.unmodifiableMap(new EnumMap<>(foreign));
  }

  /** Reads the states, and leaves out what is no silence. */
  static VisitReading read(Map<HumState, Recording> recordings, int channel) {
    Map<HumState, QuietTake> takes =
        SideBySide.map(
            recordings,
            (state, recording) ->
                new QuietTake(recording.channel(channel), recording.sampleRate()));
    Map<HumState, ForeignSound> foreign = new EnumMap<>(HumState.class);
    List<StateReading> readings = List.of();
    // what is no silence takes its mains along, so the others are read anew without it
    for (boolean more = true; more && !takes.isEmpty(); ) {
      Reader reader = new Reader(recordings, takes);
      Map<HumState, ForeignSound> found = reader.foreign();
      more = !found.isEmpty();
      readings = more ? List.of() : reader.readings();
      foreign.putAll(found);
      takes = new EnumMap<>(takes);
      takes.keySet().removeAll(found.keySet());
    }
    return new VisitReading(readings, foreign);
  }

  /** Recordings that are read together; the mains is sought where its series is plainest. */
  private static final class Reader {
    private final Map<HumState, Recording> recordings;
    private final Map<HumState, QuietTake> takes;
    private final Map<HumState, MainsSearch> searches;
    private final Map<HumState, Heard> heard;

    /** Whether the mains was sought among lines, too, that may be a radio's. */
    private final boolean all;

    Reader(Map<HumState, Recording> recordings, Map<HumState, QuietTake> takes) {
      this.recordings = recordings;
      this.takes = takes;
      Map<HumState, MainsSearch> past = SideBySide.map(takes, (state, take) -> take.mainsSearch());
      Optional<Double> common = common(past.values());
      // lines that may be a radio's were passed over; without any others they may be the mains
      all = common.isEmpty();
      searches = all ? SideBySide.map(takes, (state, take) -> take.mainsSearchInAll()) : past;
      if (all) {
        common =
            common(
                searches.entrySet().stream()
                    .filter(one -> !takes.get(one.getKey()).packetsOnly())
                    .map(Map.Entry::getValue)
                    .toList());
      }
      Optional<Double> mainsHz = common;
      heard = SideBySide.map(takes, (state, take) -> Heard.of(take, searches.get(state), mainsHz));
    }

    /** What is no silence. A recording's own mains counts where the others have none. */
    Map<HumState, ForeignSound> foreign() {
      Map<HumState, ForeignSound> foreign = new EnumMap<>(HumState.class);
      SideBySide.map(
              heard,
              (state, one) ->
                  one.take()
                      .foreign(
                          one.mains().or(searches.get(state)::found).map(MainsSearch.Mains::hz),
                          one.radio()))
          .forEach((state, found) -> found.ifPresent(sound -> foreign.put(state, sound)));
      return foreign;
    }

    /** Each recording taken apart. */
    List<StateReading> readings() {
      double resolution =
          takes.values().stream().mapToDouble(QuietTake::resolution).max().orElse(0);
      List<RadioSounds> radio = heard.values().stream().map(Heard::radio).toList();
      boolean pausing = radio.stream().anyMatch(RadioSounds::pausing);
      boolean anyRadio = radio.stream().anyMatch(RadioSounds::heard);
      Map<HumState, StateReading> readings =
          SideBySide.map(
              heard,
              (state, one) -> {
                HumSpectrum spectrum = one.spectrum(pausing);
                return new StateReading(
                    state,
                    recordings.get(state),
                    one.take().steadyShare(),
                    one.mains(),
                    spectrum,
                    one.radio(),
                    anyRadio ? one.take().hissInGaps() : Double.NaN,
                    hidden(spectrum, radio, resolution, !all));
              });
      return List.copyOf(readings.values());
    }
  }

  /** The frequency on which the recordings agree best: a string rings in one, the mains in all. */
  private static Optional<Double> common(Collection<MainsSearch> searches) {
    Optional<Double> best = Optional.empty();
    double most = 0;
    for (MainsSearch one : searches) {
      Optional<MainsSearch.Mains> found = one.found();
      if (found.isPresent()) {
        double hz = found.get().hz();
        double sum = 0;
        for (MainsSearch each : searches) {
          sum += each.near(hz).map(MainsSearch.Mains::score).orElse(0.0);
        }
        if (sum > most) {
          most = sum;
          best = Optional.of(hz);
        }
      }
    }
    return best;
  }

  /** Harmonics that lie on a line of a radio's, in whichever state that is heard. */
  private static boolean[] hidden(
      HumSpectrum spectrum, Collection<RadioSounds> radio, double resolution, boolean doubtful) {
    boolean[] hidden = new boolean[spectrum.harmonics()];
    for (int j = 1; j <= hidden.length; j++) {
      int k = j;
      double hz = k * spectrum.fundamental();
      hidden[k - 1] =
          radio.stream().anyMatch(r -> r.hides(hz, LOBES_APART, resolution + k * WANDER, doubtful));
    }
    return hidden;
  }

  /**
   * A recording listened to by itself, the mains of the visit known.
   *
   * @param hz where the lines of the mains are read [Hz]
   */
  private record Heard(
      QuietTake take, Optional<MainsSearch.Mains> mains, double hz, RadioSounds radio) {

    static Heard of(QuietTake take, MainsSearch search, Optional<Double> mainsHz) {
      Optional<MainsSearch.Mains> mains = mainsHz.flatMap(search::near);
      Optional<Double> hz = mains.map(MainsSearch.Mains::hz).or(() -> mainsHz);
      return new Heard(take, mains, hz.orElse(NOMINAL), take.radio(hz, NOMINAL));
    }

    HumSpectrum spectrum(boolean pausing) {
      double wander = mains.map(m -> WANDER + (m.high() - m.low()) / 2).orElse(UNKNOWN);
      return take.spectrum(hz, wander, radio, pausing);
    }
  }
}
