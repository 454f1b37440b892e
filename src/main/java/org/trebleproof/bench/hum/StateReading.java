package org.trebleproof.bench.hum;

import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.signal.MeanPower;
import org.trebleproof.signal.hum.HumSpectrum;
import org.trebleproof.signal.hum.MainsSearch;
import org.trebleproof.signal.hum.RadioSounds;

/**
 * One state's recording, taken apart. Powers are mean squares of samples, full scale 1.
 *
 * @param state the state
 * @param recording where it came from
 * @param steadyShare share of the recording that is steady, 0 to 1
 * @param mains the mains as found in this recording
 * @param spectrum the lines and the hiss of its steady part
 * @param radio what is heard of radio
 * @param gapHiss level of the hiss in the gaps of bursts, to compare states by; NaN without radio
 * @param leftOut for each harmonic (from 0), whether a radio's lines hide it
 */
public record StateReading(
    HumState state,
    Recording recording,
    double steadyShare,
    Optional<MainsSearch.Mains> mains,
    HumSpectrum spectrum,
    RadioSounds radio,
    double gapHiss,
    boolean[] leftOut) {

  /** Hum is the fundamental and the next three harmonics; buzz is what follows up to 5 kHz. */
  public static final int LAST_OF_HUM = 4;

  /** Whether a series of mains lines stands out and its lines are surely there. */
  public boolean mainsHeard() {
    return mains.isPresent() && lines().present();
  }

  /** Crystals of radio and recorder together (common practice, no source: 20 to 50 millionths). */
  private static final double CRYSTAL = 6e-5;

  private static final double FIFTY = 50;

  /** Whether all lines of the mains may be a radio's frames instead. */
  public boolean mainsDoubtful() {
    return radio.unclear().isPresent() && !leftOut[1];
  }

  /**
   * Whether the mains stands as exactly at 50 Hz as a crystal, in a phone's bursts: they, or
   * another radio under them, have lines at all multiples of 50 Hz.
   */
  public boolean onPhoneLines() {
    return radio.phone().found()
        && mains.filter(m -> Math.abs(m.hz() - FIFTY) < CRYSTAL * FIFTY).isPresent();
  }

  /** Power of the hum. */
  public MeanPower hum() {
    return spectrum.harmonics(1, LAST_OF_HUM, leftOut);
  }

  /** Power of the buzz. */
  public MeanPower buzz() {
    return spectrum.harmonics(LAST_OF_HUM + 1, spectrum.harmonics(), leftOut);
  }

  /** Power of hum and buzz together. */
  public MeanPower lines() {
    return spectrum.harmonics(1, spectrum.harmonics(), leftOut);
  }

  /**
   * Power of the line that stands highest over the hiss of the ear's band about it, in relation to
   * that; 0 where none is surely there.
   */
  public double standing() {
    double most = 0;
    for (int k = 1; k <= spectrum.harmonics(); k++) {
      MeanPower line = spectrum.harmonic(k);
      if (!leftOut[k - 1] && line.present()) {
        most = Math.max(most, line.value() / spectrum.hissAbout(k));
      }
    }
    return most;
  }

  /** A-weighted power of hum and buzz together. */
  public MeanPower weightedLines() {
    return spectrum.weightedHarmonics(1, spectrum.harmonics(), leftOut);
  }
}
