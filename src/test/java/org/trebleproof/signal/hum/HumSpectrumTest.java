package org.trebleproof.signal.hum;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.signal.FullScale;
import org.trebleproof.signal.MeanPower;

class HumSpectrumTest {

  private static final double RATE = 48000;

  /** AES17: a sine that just reaches full scale is 0 dBFS; a full-scale square is 3.01 higher. */
  @Test
  void fullScaleSineIsZeroDecibels() {
    BlockSpectra spectra = BlockSpectra.of(Tones.sine(Tones.none(3), 997, 1), RATE);
    double power = spectra.between(2, 980, 1014);
    assertEquals(0, FullScale.level(power), 0.001);
    assertEquals(3.0103, FullScale.level(1), 1e-4);
  }

  /** The window's published side lobes are 93 dB down; 20 Hz away they have fallen further. */
  @Test
  void aStrongLineDoesNotLeakIntoTheHiss() {
    BlockSpectra spectra = BlockSpectra.of(Tones.sine(Tones.none(3), 50.7, 1), RATE);
    double worst = 0;
    for (int bin = 36; bin < 2000; bin++) {
      worst = Math.max(worst, spectra.power(1, bin));
    }
    assertTrue(FullScale.level(worst) < -93, "worst " + FullScale.level(worst));
  }

  @Test
  void findsTheMainsAnywhereInBothSpans() {
    for (double hz : new double[] {47.2, 49.7, 50.013, 52.9, 57.1, 59.83, 60.2, 62.8}) {
      double[] x = Tones.hiss(Tones.none(10), 1e-4, 7);
      for (int k = 1; k <= 12; k++) {
        Tones.sine(x, k * hz, 1e-3 / k);
      }
      BlockSpectra spectra = BlockSpectra.of(x, RATE);
      Optional<MainsSearch.Mains> found =
          new MainsSearch(LineSpectrum.of(x, spectra, Tones.all(spectra)), Optional.empty())
              .found();
      assertEquals(hz, found.orElseThrow().hz(), 0.003);
      assertTrue(found.get().low() <= hz && hz <= found.get().high(), hz + " outside " + found);
    }
  }

  @Test
  void hissAloneHasNoMains() {
    for (long seed = 1; seed <= 6; seed++) {
      double[] x = Tones.hiss(Tones.none(10), 1e-3, seed);
      BlockSpectra spectra = BlockSpectra.of(x, RATE);
      assertTrue(
          new MainsSearch(LineSpectrum.of(x, spectra, Tones.all(spectra)), Optional.empty())
              .found()
              .isEmpty(),
          "seed " + seed);
    }
  }

  /** Lines and hiss of known power: each within its interval and the interval narrow. */
  @Test
  void linesAndHissComeApart() {
    double[] x = Tones.hiss(Tones.none(10), 1e-3, 3);
    Tones.sine(x, 50.02, 1e-2);
    Tones.sine(x, 150.06, 1e-4);
    QuietTake take = new QuietTake(Tones.floats(x), RATE);
    HumSpectrum spectrum = take.spectrum(50.02, 0.004, take.radio(Optional.of(50.02), 50), false);
    assertEquals(0.5e-4, spectrum.harmonic(1).value(), 0.02 * 0.5e-4);
    MeanPower third = spectrum.harmonic(3);
    assertTrue(third.quantile(0.025) < 0.5e-8 && third.quantile(0.975) > 0.5e-8, "" + third);
    assertTrue(third.present());
    assertFalse(spectrum.harmonic(7).present());
    // white to 24 kHz, counted from 20 Hz to 20 kHz
    double expected = 1e-6 * (20000 - 20) / 24000;
    assertEquals(expected, spectrum.hiss().value(), 0.02 * expected);
    assertEquals(0.5e-4 + expected, spectrum.total().value(), 0.02 * 0.5e-4);
  }

  @Test
  void aBrushedStringIsLeftOut() {
    double[] x = Tones.hiss(Tones.none(10), 1e-5, 5);
    Tones.sine(x, 50, 1e-3);
    for (int i = 48000 * 4; i < x.length; i++) {
      double t = i / RATE - 4;
      x[i] += 0.05 * Math.exp(-t / 0.4) * Math.sin(2 * Math.PI * 196 * t);
    }
    QuietTake take = new QuietTake(Tones.floats(x), RATE);
    assertTrue(take.steadyShare() < 0.8, "share " + take.steadyShare());
    HumSpectrum spectrum = take.spectrum(50, 0.004, take.radio(Optional.of(50.0), 50), false);
    assertEquals(0.5e-6, spectrum.harmonic(1).value(), 0.03 * 0.5e-6);
    assertTrue(spectrum.harmonic(4).positive() < 0.5e-6 / 100, "" + spectrum.harmonic(4));
    assertFalse(take.radio(Optional.of(50.0), 50).heard());
  }

  @Test
  void aPhonesBurstsAreFoundInPacketsAndThroughout() {
    for (double packet : new double[] {0.4, 20}) {
      double[] x = Tones.hiss(Tones.none(8), 1e-4, 11);
      Tones.sine(x, 50, 1e-2);
      for (int i = 0; i < x.length; i++) {
        double t = i / RATE;
        boolean on = t % 3 < packet && t % (0.12 / 26) < 0.12 / 208;
        x[i] += on ? 3e-3 : 0;
      }
      QuietTake take = new QuietTake(Tones.floats(x), RATE);
      assertTrue(take.radio(Optional.of(50.0), 50).phone().found(), "packets of " + packet + " s");
    }
  }

  @Test
  void buzzIsNotTakenForAPhone() {
    for (double hz : new double[] {49.8, 50, 59.9, 60.1}) {
      double[] x = Tones.hiss(Tones.none(6), 1e-6, 13);
      for (int k = 1; k <= 80; k++) {
        Tones.sine(x, k * hz, 1e-3);
      }
      QuietTake take = new QuietTake(Tones.floats(x), RATE);
      assertFalse(take.radio(Optional.of(hz), 50).heard(), hz + " Hz");
    }
  }
}
