package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.Collection;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.signal.BlockSpectra;
import org.trebleproof.signal.HumSpectrum;
import org.trebleproof.signal.MainsSearch;
import org.trebleproof.signal.QuietTake;
import org.trebleproof.signal.RadioSounds;

/** The recordings of one visit to a guitar, taken apart with one mains frequency. */
final class HumVisit {

  /** Where no mains is found, levels are read as if there were one of this frequency [Hz]. */
  private static final double NOMINAL = 50;

  /** Closer than this, the lobes of two lines overlap [Hz]. */
  private static final double LOBES_APART = 2 * BlockSpectra.LOBE / BlockSpectra.BLOCK;

  /** Wander of the mains between and within the recordings [Hz]. */
  private static final double WANDER = 0.004;

  /** How far the mains may be from where another recording had it [Hz]. */
  private static final double UNKNOWN = 0.015;

  private HumVisit() {}

  /** Reads the states; the mains is sought where its series is plainest, then close to it. */
  static List<StateReading> read(Map<HumState, Recording> recordings, int channel) {
    // the recordings have nothing to do with each other yet, so each may have a processor
    List<Prepared> prepared =
        recordings.entrySet().parallelStream()
            .map(entry -> Prepared.of(entry.getKey(), entry.getValue(), channel))
            .toList();
    Optional<Double> common = common(prepared.stream().map(Prepared::search).toList());
    // lines that may be a radio's were passed over; without any others they may be the mains
    boolean all = common.isEmpty();
    if (all) {
      common =
          common(
              prepared.stream()
                  .filter(one -> !one.take().packetsOnly())
                  .map(one -> one.take().mainsSearchInAll())
                  .toList());
    }
    Optional<Double> mainsHz = common;
    Map<HumState, Optional<MainsSearch.Mains>> mains = new EnumMap<>(HumState.class);
    Map<HumState, RadioSounds> radio = new EnumMap<>(HumState.class);
    for (Prepared one : prepared) {
      MainsSearch search = all ? one.take().mainsSearchInAll() : one.search();
      Optional<MainsSearch.Mains> here = mainsHz.flatMap(search::near);
      mains.put(one.state(), here);
      radio.put(
          one.state(),
          one.take().radio(here.map(MainsSearch.Mains::hz).or(() -> mainsHz), NOMINAL));
    }
    double resolution = prepared.stream().mapToDouble(p -> p.take().resolution()).max().orElse(0);
    boolean anyRadio = radio.values().stream().anyMatch(RadioSounds::heard);
    List<StateReading> readings = new ArrayList<>();
    for (Prepared one : prepared) {
      HumState state = one.state();
      double hz = mains.get(state).map(MainsSearch.Mains::hz).or(() -> mainsHz).orElse(NOMINAL);
      double wander = mains.get(state).map(m -> WANDER + (m.high() - m.low()) / 2).orElse(UNKNOWN);
      HumSpectrum spectrum = one.take().spectrum(hz, wander, radio.get(state));
      readings.add(
          new StateReading(
              state,
              recordings.get(state),
              one.take().steadyShare(),
              mains.get(state),
              spectrum,
              radio.get(state),
              anyRadio ? one.take().hissInGaps() : Double.NaN,
              hidden(spectrum, radio.values(), resolution, !all)));
    }
    return readings;
  }

  /** The frequency on which the recordings agree best: a string rings in one, the mains in all. */
  private static Optional<Double> common(List<MainsSearch> searches) {
    Optional<Double> best = Optional.empty();
    double most = 0;
    for (MainsSearch one : searches) {
      Optional<MainsSearch.Mains> found = one.find();
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

  /** A recording cut up, and the search for the mains in it. */
  private record Prepared(HumState state, QuietTake take, MainsSearch search) {

    static Prepared of(HumState state, Recording recording, int channel) {
      QuietTake take = new QuietTake(recording.channel(channel), recording.sampleRate());
      return new Prepared(state, take, take.mainsSearch());
    }
  }
}
