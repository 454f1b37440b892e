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

  /** The same for spectra of a whole recording of ten seconds [Hz]. */
  private static final double FINE = 0.5;

  /** Wander of the mains between and within the recordings [Hz]. */
  private static final double WANDER = 0.004;

  private HumVisit() {}

  /** Reads the states; the mains is sought where its series is plainest, then close to it. */
  static List<StateReading> read(Map<HumState, Recording> recordings, int channel) {
    Optional<MainsSearch.Mains> plainest = Optional.empty();
    // the recordings have nothing to do with each other yet, so each may have a processor
    List<Prepared> prepared =
        recordings.entrySet().parallelStream()
            .map(entry -> Prepared.of(entry.getKey(), entry.getValue(), channel))
            .toList();
    for (Prepared one : prepared) {
      Optional<MainsSearch.Mains> found = one.found();
      if (found.isPresent()
          && (plainest.isEmpty() || found.get().score() > plainest.get().score())) {
        plainest = found;
      }
    }
    // lines that may be a radio's were passed over; without any others they may be the mains
    boolean all = plainest.isEmpty();
    for (Prepared one : prepared) {
      Optional<MainsSearch.Mains> found =
          all && !one.take().packetsOnly() ? one.take().mainsSearchInAll().find() : plainest;
      if (found.isPresent()
          && (plainest.isEmpty() || found.get().score() > plainest.get().score())) {
        plainest = found;
      }
    }
    Optional<Double> common = plainest.map(MainsSearch.Mains::hz);
    Map<HumState, Optional<MainsSearch.Mains>> mains = new EnumMap<>(HumState.class);
    Map<HumState, RadioSounds> radio = new EnumMap<>(HumState.class);
    for (Prepared one : prepared) {
      MainsSearch search = all ? one.take().mainsSearchInAll() : one.search();
      Optional<MainsSearch.Mains> here = common.flatMap(search::near);
      mains.put(one.state(), here);
      radio.put(
          one.state(), one.take().radio(here.map(MainsSearch.Mains::hz).or(() -> common), NOMINAL));
    }
    boolean anyRadio = radio.values().stream().anyMatch(RadioSounds::heard);
    List<StateReading> readings = new ArrayList<>();
    for (Prepared one : prepared) {
      HumState state = one.state();
      double hz = mains.get(state).map(MainsSearch.Mains::hz).or(() -> common).orElse(NOMINAL);
      HumSpectrum spectrum = one.take().spectrum(hz, radio.get(state));
      readings.add(
          new StateReading(
              state,
              recordings.get(state),
              one.take().steadyShare(),
              mains.get(state),
              spectrum,
              radio.get(state),
              anyRadio ? one.take().hissInGaps() : Double.NaN,
              hidden(spectrum, radio.values(), all)));
    }
    return readings;
  }

  /** Harmonics that lie on a line of a radio's, in whichever state that is heard. */
  private static boolean[] hidden(
      HumSpectrum spectrum, Collection<RadioSounds> radio, boolean all) {
    boolean[] hidden = new boolean[spectrum.harmonics()];
    for (int j = 1; j <= hidden.length; j++) {
      int k = j;
      double hz = k * spectrum.fundamental();
      hidden[k - 1] =
          radio.stream().anyMatch(r -> r.hides(hz, LOBES_APART, FINE + k * WANDER, !all));
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
