package org.trebleproof.bench.mod.turn;

import java.util.OptionalDouble;

/** Something that a control can stand at. */
public sealed interface Stop {

  /** As the trade writes it. */
  String label();

  /** No part there. */
  record Nothing(String label) implements Stop {}

  /**
   * A part to buy.
   *
   * @param value SI
   * @param logSd standard deviation of its logarithm
   */
  record Marked(String label, double value, double logSd) implements Stop {}

  /**
   * A part of which the guitar's model knows the value.
   *
   * @param named what the part is called, where that says more than the control's own name; else
   *     empty
   * @param part its name in the model
   * @param value its likeliest value, SI
   */
  record Known(String label, String named, String part, double value) implements Stop {}

  /**
   * A treble bleed.
   *
   * @param farad its capacitor [F]
   * @param ohm its resistor [ohm]; empty for none
   * @param inSeries whether the resistor is in series with the capacitor, not across it
   * @param logSd standard deviation of the capacitance's logarithm
   */
  record Bleed(String label, double farad, OptionalDouble ohm, boolean inSeries, double logSd)
      implements Stop {}

  /**
   * A wiring.
   *
   * @param circuit its place among the circuits
   */
  record Wiring(String label, int circuit) implements Stop {}
}
