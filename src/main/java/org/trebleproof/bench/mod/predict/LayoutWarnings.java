package org.trebleproof.bench.mod.predict;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;

/** What to mind about the prediction of a layout. */
public final class LayoutWarnings {
  private static final double LOW_INPUT = 500e3;

  private LayoutWarnings() {}

  public static List<Finding> of(SignalChain chain, Layout layout) {
    List<Finding> all = new ArrayList<>();
    for (String pickup : layout.pickups()) {
      if (chain.coils().get(pickup) == CoilModel.IDEAL) {
        all.add(
            Finding.of(
                FindingCode.NO_CORE_LOSS,
                "The coil " + pickup + " is taken without core loss, which makes peaks too high.",
                "a usual core loss takes about 1 dB off the peak with 250k pots, 2 dB with 1M",
                "Measure the coil, or state its core loss (loss=800k is usual for single coils)."));
      }
    }
    layout
        .part(Slot.INPUT)
        .map(chain.knowledge()::index)
        .filter(i -> i >= 0 && Math.exp(chain.knowledge().logMean()[i]) < LOW_INPUT)
        .ifPresent(
            i ->
                all.add(
                    Finding.of(
                        FindingCode.LOW_INPUT,
                        "The input is below 500k, which damps any pickup.",
                        "instrument inputs have about 1M; line inputs 10k to 100k",
                        "Plug into an instrument input.")));
    if (layout.part(Slot.INPUT).isEmpty()) {
      all.add(
          Finding.of(
              FindingCode.UNPLUGGED,
              "Nothing is plugged in: no amplifier loads the guitar.",
              "no input resistance is stated",
              "State cable and input to hear what an amplifier hears."));
    }
    if (layout.pickups().size() > 1) {
      all.add(
          Finding.of(
              FindingCode.ONE_STRING_SIGNAL,
              "Every pickup is taken to hear the same string signal; where they sit differs, and"
                  + " that adds notches of its own.",
              "no coupling between the pickups' fields either",
              "Read the curve as what the wiring does, not as the sound of two places on the"
                  + " string."));
    }
    if (layout.tapped() && chain.coils().get(layout.pickups().get(0)).innerNodes() == 0) {
      all.add(
          Finding.of(
              FindingCode.EQUAL_COILS,
              "The tapped pickup is taken as two equal coils that share no flux.",
              "half the inductance and resistance, twice the capacitance each",
              "Measure each coil on its own for more."));
    }
    return all;
  }
}
