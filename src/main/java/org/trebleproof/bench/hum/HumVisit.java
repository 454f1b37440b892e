package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.signal.BlockSpectra;
import org.trebleproof.signal.BurstSearch;
import org.trebleproof.signal.HumSpectrum;
import org.trebleproof.signal.MainsSearch;
import org.trebleproof.signal.QuietTake;

/** The recordings of one visit to a guitar, taken apart with one mains frequency. */
final class HumVisit {

  /** Where no mains is found, levels are read as if there were one of this frequency [Hz]. */
  private static final double NOMINAL = 50;

  /** Closer than this, the lobes of two lines overlap [Hz]. */
  private static final double LOBES_APART = 2 * BlockSpectra.LOBE / BlockSpectra.BLOCK;

  private HumVisit() {}

  /** Reads the states; the mains is sought where its series is plainest, then close to it. */
  static List<StateReading> read(Map<HumState, Recording> recordings, int channel) {
    Map<HumState, QuietTake> silences = new EnumMap<>(HumState.class);
    Map<HumState, MainsSearch> searches = new EnumMap<>(HumState.class);
    Optional<MainsSearch.Mains> plainest = Optional.empty();
    // the recordings have nothing to do with each other yet, so each may have a processor
    List<Prepared> prepared =
        recordings.entrySet().parallelStream()
            .map(entry -> Prepared.of(entry.getKey(), entry.getValue(), channel))
            .toList();
    for (Prepared one : prepared) {
      silences.put(one.state(), one.take());
      searches.put(one.state(), one.search());
      Optional<MainsSearch.Mains> found = one.found();
      if (found.isPresent()
          && (plainest.isEmpty() || found.get().score() > plainest.get().score())) {
        plainest = found;
      }
    }
    double common = plainest.map(MainsSearch.Mains::hz).orElse(NOMINAL);
    Map<HumState, Optional<MainsSearch.Mains>> mains = new EnumMap<>(HumState.class);
    Map<HumState, BurstSearch.Bursts> bursts = new EnumMap<>(HumState.class);
    boolean anyBursts = false;
    for (HumState state : silences.keySet()) {
      mains.put(state, plainest.isEmpty() ? Optional.empty() : searches.get(state).near(common));
      double hz = mains.get(state).map(MainsSearch.Mains::hz).orElse(common);
      bursts.put(state, silences.get(state).bursts(hz));
      anyBursts |= bursts.get(state).found();
    }
    List<StateReading> readings = new ArrayList<>();
    for (HumState state : silences.keySet()) {
      double hz = mains.get(state).map(MainsSearch.Mains::hz).orElse(common);
      QuietTake silence = silences.get(state);
      HumSpectrum spectrum = silence.spectrum(hz, bursts.get(state));
      readings.add(
          new StateReading(
              state,
              recordings.get(state),
              silence.steadyShare(),
              mains.get(state),
              spectrum,
              bursts.get(state),
              hidden(spectrum, anyBursts)));
    }
    return readings;
  }

  /** Harmonics that lie on a line of a phone's bursts. */
  private static boolean[] hidden(HumSpectrum spectrum, boolean bursts) {
    boolean[] hidden = new boolean[spectrum.harmonics()];
    for (int k = 1; bursts && k <= hidden.length; k++) {
      double hz = k * spectrum.fundamental();
      double nearest = BurstSearch.RATE * Math.round(hz / BurstSearch.RATE);
      hidden[k - 1] = nearest > 0 && Math.abs(hz - nearest) < LOBES_APART;
    }
    return hidden;
  }

  /** A recording cut up, and the mains as it shows by itself. */
  private record Prepared(
      HumState state, QuietTake take, MainsSearch search, Optional<MainsSearch.Mains> found) {

    static Prepared of(HumState state, Recording recording, int channel) {
      QuietTake take = new QuietTake(recording.channel(channel), recording.sampleRate());
      MainsSearch search = take.mainsSearch();
      return new Prepared(state, take, search, search.find());
    }
  }
}
