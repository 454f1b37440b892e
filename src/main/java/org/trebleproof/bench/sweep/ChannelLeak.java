package org.trebleproof.bench.sweep;

import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.model.Candidate;
import org.trebleproof.bench.model.CoilLadder;
import org.trebleproof.bench.model.FittedModels;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;

/**
 * Whether an odd coil, or one that contradicts a statement, is a plain one heard through a leak.
 * What leaks from the reference channel into the device channel adds to every response; small leaks
 * are an unknown of the fit, but a model of two coils with departures can be bent to take a large
 * one for metal, and then states a resistance and an inductance that are far off. So before such a
 * model is believed, a plain one is tried with a large leak.
 */
public final class ChannelLeak {

  /** A leak of this share, -50 dB, is no crosstalk any more but a fault of the bench. */
  private static final double FAULT = 3e-3;

  private ChannelLeak() {}

  /** A plain coil heard through a large leak, where that explains the captures to their noise. */
  public static Optional<Candidate> explaining(CoilLadder ladder) {
    return ladder.heardThroughALeak().filter(ChannelLeak::explained);
  }

  private static boolean explained(Candidate plain) {
    return Math.abs(plain.leak()) >= FAULT && plain.reducedChiSquare() <= CoilLadder.PASS;
  }

  /** An error where a plain coil with a large leak explains the captures at least as well. */
  public static Optional<Finding> of(CoilLadder ladder, FittedModels models) {
    Candidate chosen = models.chosen();
    if (!chosen.odd() && chosen.model().letGo().isEmpty() && !models.contradictStatement()) {
      return Optional.empty();
    }
    Optional<Candidate> heard = ladder.heardThroughALeak();
    if (heard.isEmpty()) {
      return Optional.empty();
    }
    Candidate plain = heard.get();
    double leak = plain.leak();
    if (!explained(plain) || plain.criterion() > chosen.criterion()) {
      return Optional.empty();
    }
    return Optional.of(
        Finding.of(
            FindingCode.CHANNELS_LEAK,
            "The captures look like those of a plain coil with some of the reference channel leaking"
                + " into the device channel, so no values are given.",
            String.format(
                Locale.ROOT,
                "a %s coil with a leak of %.2f %% explains them better than a %s one without",
                plain.model().coil().label(),
                100 * leak,
                chosen.model().coil().label()),
            "Unplug the device, leave its input open and play the sweep: nothing but noise may"
                + " come back. Then look at the recorder's direct monitoring, its routing and the"
                + " cables, and sweep again."));
  }
}
