package org.trebleproof.signal.hum;

import java.util.Optional;
import org.trebleproof.signal.MeanPower;

/**
 * What is heard of radio in one recording.
 *
 * @param phone a mobile phone's 217 bursts per second
 * @param frames the frames of another digital radio
 * @param unclear a comb that may be a radio's frames or the mains itself
 * @param packets packets with random gaps
 * @param programme power of a demodulated programme
 * @param power mean square of all of it over the recording, 0 when there is none
 */
public record RadioSounds(
    BurstSearch.Bursts phone,
    Optional<Frames> frames,
    Optional<Frames> unclear,
    Optional<Packets> packets,
    Optional<MeanPower> programme,
    MeanPower power) {

  /** A phone and nothing else. */
  static RadioSounds ofPhone(BurstSearch.Bursts phone) {
    return new RadioSounds(
        phone,
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        new MeanPower(phone.power(), 0.12 * phone.power()));
  }

  /** Whether anything of it is surely radio. */
  public boolean heard() {
    return phone.found() || frames.isPresent() || packets.isPresent() || programme.isPresent();
  }

  /** Whether a radio that comes and goes is heard: packets with gaps, or a programme. */
  public boolean pausing() {
    return packets.isPresent() || programme.isPresent();
  }

  /** Distance of a frequency to the nearest line of a phone's bursts [Hz]. */
  double fromBursts(double hz) {
    return phone.found()
        ? Math.abs(hz - BurstSearch.RATE * Math.max(1, Math.round(hz / BurstSearch.RATE)))
        : Double.POSITIVE_INFINITY;
  }

  /**
   * Whether a line cannot be told from the radio's own.
   *
   * @param hz its frequency [Hz]
   * @param lobe half-width of a line in spectra of blocks [Hz]
   * @param fine half-width of a line in the spectrum of the whole recording [Hz]
   * @param doubtful whether lines that may be either's are hidden, too
   */
  public boolean hides(double hz, double lobe, double fine, boolean doubtful) {
    return fromBursts(hz) < lobe
        || frames.or(() -> doubtful ? unclear : frames).filter(f -> f.from(hz) < fine).isPresent();
  }
}
