package org.trebleproof.bench.mod;

import java.util.Arrays;
import java.util.Optional;
import org.trebleproof.bench.job.Layout;

/**
 * One or two level curves to look at beside a result.
 *
 * @param title what is plotted
 * @param hz frequencies [Hz]
 * @param first the curve that is there
 * @param second the one it is held against; empty for none
 */
public record CurvePair(String title, double[] hz, Curve first, Optional<Curve> second) {

  /** A named curve [dB]. */
  public record Curve(String name, double[] decibel) {
    /** The level of a wiring at the frequencies of a prediction. */
    static Curve of(String name, SignalChain chain, Layout layout) {
      return of(name, Wired.of(chain, layout), chain);
    }

    static Curve of(String name, Wired wired, SignalChain chain) {
      return new Curve(
          name, RandomGuitars.decibels(wired.powers(chain.knowledge().logMean(), frequencies())));
    }
  }

  static double[] frequencies() {
    return Arrays.copyOf(Grid.frequencies(), Grid.curvePoints());
  }

  static CurvePair of(String title, Curve first, Curve second) {
    return new CurvePair(title, frequencies(), first, Optional.of(second));
  }

  static CurvePair of(String title, Curve only) {
    return new CurvePair(title, frequencies(), only, Optional.empty());
  }
}
