package org.trebleproof.bench.strike;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.signal.strike.BroadbandLevels;
import org.trebleproof.signal.strike.PartialSeries;
import org.trebleproof.signal.strike.ShortSpectrum;
import org.trebleproof.signal.strike.StrikeFinder;
import org.trebleproof.signal.strike.StrikeSpan;
import org.trebleproof.signal.strike.StringPitch;

/**
 * The strikes of one capture.
 *
 * @param entry the capture
 * @param strikes usable ones, in order
 * @param found all that were found
 * @param clipped how many drove the recorder to its ceiling
 * @param doubled how many hit the string twice
 * @param cutOff how many were cut off before their partials could be measured
 * @param elsewhere where none were found: another channel of the file that holds some
 */
record StrikeTake(
    CaptureEntry entry,
    List<Strike> strikes,
    int found,
    int clipped,
    int doubled,
    int cutOff,
    OptionalInt elsewhere,
    double sampleRate,
    int bits,
    String sha256) {

  /** Length of the stretch whose spectrum decides on the octave [s]. */
  private static final double STRETCH = 0.3;

  private static final double SHORTEST = 0.12;

  /** Fewer partials than this are no string. */
  private static final int FEWEST = 4;

  StrikeTake {
    strikes = List.copyOf(strikes);
  }

  /**
   * One usable strike.
   *
   * @param place where it is in the recording
   * @param string its partials; empty for a scrape or a strum
   * @param bands its third-octave levels where it has no partials
   */
  record Strike(
      StrikeSpan place, Optional<PartialSeries> string, Optional<BroadbandLevels> bands) {}

  static StrikeTake read(Job job, CaptureEntry entry) {
    Recording recording = SoundFile.read(entry.file());
    float[] samples = recording.soleChannel(job.fixture().deviceChannel());
    double rate = recording.sampleRate();
    List<StrikeSpan> places = StrikeFinder.find(samples, rate);
    List<StrikeSpan> usable = new ArrayList<>();
    int clipped = 0;
    int doubled = 0;
    int cutOff = 0;
    for (StrikeSpan place : places) {
      if (place.clipped()) {
        clipped++;
      } else if (place.doubled()) {
        doubled++;
      } else if (place.end() - place.onset() < SHORTEST * rate) {
        cutOff++;
      } else {
        usable.add(place);
      }
    }
    return new StrikeTake(
        entry,
        usable.parallelStream().map(place -> measured(samples, rate, place)).toList(),
        places.size(),
        clipped,
        doubled,
        cutOff,
        places.isEmpty()
            ? elsewhere(recording, job.fixture().deviceChannel())
            : OptionalInt.empty(),
        rate,
        recording.bits(),
        SoundFile.sha256(entry.file()));
  }

  private static OptionalInt elsewhere(Recording recording, int wanted) {
    return IntStream.rangeClosed(1, recording.channels().length)
        .filter(c -> c != wanted)
        .filter(c -> !StrikeFinder.find(recording.channel(c), recording.sampleRate()).isEmpty())
        .findFirst();
  }

  private static Strike measured(float[] samples, double rate, StrikeSpan place) {
    int from = place.onset() + (int) (0.025 * rate);
    int window = (int) Math.min(STRETCH * rate, place.end() - from);
    ShortSpectrum after = new ShortSpectrum(samples, rate, from, window);
    ShortSpectrum before =
        new ShortSpectrum(samples, rate, place.onset() - window - (int) (0.003 * rate), window);
    Optional<PartialSeries> string =
        StringPitch.of(samples, rate, from, place.end(), after, before)
            .map(hz -> PartialSeries.of(samples, rate, place, hz))
            .filter(s -> s.partials().size() >= FEWEST);
    return new Strike(
        place,
        string,
        string.isPresent()
            ? Optional.empty()
            : Optional.of(BroadbandLevels.of(samples, rate, place)));
  }
}
