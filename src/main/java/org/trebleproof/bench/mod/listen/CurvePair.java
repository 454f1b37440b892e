package org.trebleproof.bench.mod.listen;

import java.util.Arrays;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.UnaryOperator;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.bench.mod.predict.Grid;
import org.trebleproof.bench.mod.predict.RandomGuitars;

/**
 * One or two level curves to look at beside a result.
 *
 * @param title what is plotted
 * @param hz frequencies [Hz]
 * @param first the curve that is there
 * @param second the one it is held against; empty for none
 */
public record CurvePair(String title, double[] hz, Curve first, Optional<Curve> second) {
  private static final long SEED = 3;

  /**
   * A named curve.
   *
   * @param name in the legend
   * @param decibel levels [dB]
   * @param low lower bound of the 95 % band [dB]; empty for a curve that has none
   * @param high upper bound [dB]; empty likewise
   */
  public record Curve(String name, double[] decibel, double[] low, double[] high) {

    /** A curve that is given, not known. */
    public static Curve given(String name, double[] decibel) {
      return new Curve(name, decibel, new double[0], new double[0]);
    }

    /** The level of a wiring at the frequencies of a prediction. */
    public static Curve of(String name, SignalChain chain, Layout layout) {
      return of(name, chain, c -> WiredCircuit.of(c, layout));
    }

    public static Curve of(
        String name, SignalChain chain, Function<SignalChain, WiredCircuit> wiring) {
      RandomGuitars guitars =
          new RandomGuitars(
              chain,
              c -> {
                WiredCircuit wired = wiring.apply(c);
                return new RandomGuitars.Model(wired, wired, UnaryOperator.identity());
              },
              RandomGuitars.FEW,
              SEED);
      int n = Grid.curvePoints();
      double[] low = new double[n];
      double[] high = new double[n];
      for (int i = 0; i < n; i++) {
        int at = i;
        double[] ends = guitars.bounds(g -> g.now()[at]);
        low[i] = ends[0];
        high[i] = ends[1];
      }
      return new Curve(name, Arrays.copyOf(guitars.centre().now(), n), low, high);
    }

    /** The same curve as something to look from, not to be read. */
    public Curve withoutBand() {
      return given(name, decibel);
    }

    public Curve named(String other) {
      return new Curve(other, decibel, low, high);
    }
  }

  public static double[] frequencies() {
    return Arrays.copyOf(Grid.frequencies(), Grid.curvePoints());
  }

  public static CurvePair of(String title, Curve first, Curve second) {
    return new CurvePair(title, frequencies(), first, Optional.of(second));
  }
}
