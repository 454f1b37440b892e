package org.trebleproof.bench.sweep;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Refusal;

/**
 * Whether captures that no coil explains are of a coil whose inductance grows with the level of the
 * sweep. In weak fields the permeability of iron grows in proportion to the field, and the loop
 * that it runs through makes a third harmonic of the flux that is 4 / (15 pi) of that growth
 * (Rayleigh's law; R. M. Bozorth, Ferromagnetism, from memory). The voltage of a third harmonic is
 * three times its flux, so the harmonic that is heard tells how much the inductance grows, and what
 * a fit with one inductance for all levels can leave over.
 */
public final class IronGrowth {

  /** Voltage of the third harmonic over that of the fundamental, for a growth of one. */
  private static final double THIRD = 3 * 4 / (15 * Math.PI);

  /**
   * A fit with one inductance leaves over no more than this share of the growth: most of it passes
   * for a larger coil.
   */
  private static final double LEFT_OVER = 0.5;

  private IronGrowth() {}

  /**
   * What is said in place of a misfit that such a growth explains.
   *
   * @param misfit that no coil fits
   * @param floor what the best coil leaves over, relative
   * @param readings of all captures
   */
  public static Optional<Finding> instead(
      Finding misfit, double floor, List<CaptureReading> readings) {
    if (misfit.code() != FindingCode.NO_MODEL_FITS && misfit.code() != FindingCode.NOT_CAUSAL) {
      return Optional.empty();
    }
    CaptureReading worst =
        readings.stream().max(Comparator.comparingDouble(IronGrowth::growth)).orElseThrow();
    double growth = growth(worst);
    if (floor > LEFT_OVER * growth) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.of(
                FindingCode.LEVEL_DEPENDENT,
                "The pickup's inductance seems to grow with the level of the sweep, so no part values"
                    + " are given: they would hold for one level only.",
                String.format(
                    Locale.ROOT,
                    "%s has a third harmonic %.0f dB below the fundamental at %.0f Hz, as iron makes it"
                        + " whose inductance grows by about %.1f %%; the best coil of one inductance"
                        + " misses by %.2f %%",
                    Refusal.quote(worst.entry().id()),
                    -worst.measurement().harmonics().level(3),
                    worst.measurement().harmonics().hz()[1],
                    100 * growth,
                    100 * floor),
                "Sweep again some 12 dB weaker. Or keep these and add a second sweep of each setup at"
                    + " least 6 dB weaker: from two levels the values for a weak signal follow. If the"
                    + " third harmonic stays as it is, it is the input that is overdriven.")
            .about(misfit.keys()));
  }

  /** By how much the inductance grows, if it is iron that makes the third harmonic. */
  private static double growth(CaptureReading r) {
    return Math.pow(10, r.measurement().harmonics().level(3) / 20) / THIRD;
  }
}
