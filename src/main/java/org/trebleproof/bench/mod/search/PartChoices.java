package org.trebleproof.bench.mod.search;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.StandardPots;
import org.trebleproof.quantity.PreferredNumbers;

/**
 * One slot and what may sit in it.
 *
 * @param slot the slot
 * @param values [ohm or F]; NaN for nothing, the first one being what is there now
 */
record PartChoices(Slot slot, double[] values) {
  /** What may be tried in a guitar wired so. */
  static List<PartChoices> of(SignalChain chain, Layout layout, Target target) {
    List<PartChoices> all = new ArrayList<>();
    double[] pots = Arrays.stream(StandardPots.values()).mapToDouble(StandardPots::ohm).toArray();
    if (layout.part(Slot.VOLUME).isPresent()) {
      all.add(at(chain, layout, Slot.VOLUME, pots));
    }
    if (layout.part(Slot.TONE).isPresent()) {
      all.add(at(chain, layout, Slot.TONE, pots));
      if (layout.turned(Slot.TONE).rotation() < 1) {
        all.add(at(chain, layout, Slot.TONE_CAPACITOR, series(PreferredNumbers.E6, 1e-9, 100e-9)));
      }
    }
    if (layout.part(Slot.CABLE).isPresent()) {
      // 3, 4.5, 6 and 9 m at about 100 pF/m (common practice, no source)
      all.add(at(chain, layout, Slot.CABLE, new double[] {300e-12, 450e-12, 600e-12, 900e-12}));
    }
    all.add(at(chain, layout, Slot.LOAD_CAPACITOR, series(PreferredNumbers.E24, 100e-12, 4.7e-9)));
    all.add(at(chain, layout, Slot.LOAD_RESISTOR, series(PreferredNumbers.E24, 47e3, 1e6)));
    if (layout.part(Slot.VOLUME).isPresent() && layout.turned(Slot.VOLUME).rotation() < 1) {
      all.add(
          at(chain, layout, Slot.BLEED_CAPACITOR, series(PreferredNumbers.E6, 100e-12, 2.2e-9)));
      all.add(at(chain, layout, Slot.BLEED_RESISTOR, series(PreferredNumbers.E6, 100e3, 220e3)));
    }
    // A peak is measured from the level at 20 Hz, which a bass cut takes away.
    if (layout.part(Slot.BASS_POT).isEmpty() && target instanceof Target.Shape) {
      all.add(at(chain, layout, Slot.BASS_CAPACITOR, series(PreferredNumbers.E6, 1e-9, 10e-9)));
    }
    if (layout.tapped()) {
      all.add(at(chain, layout, Slot.TAP_RESISTOR, series(PreferredNumbers.E6, 1e3, 22e3)));
    }
    return all;
  }

  private static PartChoices at(SignalChain chain, Layout layout, Slot slot, double[] choices) {
    double now =
        layout
            .part(slot)
            .map(p -> Math.exp(chain.knowledge().logMean()[chain.knowledge().index(p)]))
            .orElse(Double.NaN);
    double in = partThatIsIn(slot, choices, now);
    double[] others = Arrays.stream(choices).filter(v -> v != in).toArray();
    double[] values = new double[others.length + 1];
    values[0] = now;
    System.arraycopy(others, 0, values, 1, others.length);
    return new PartChoices(slot, values);
  }

  /**
   * The choice that a part reading so is marked with: the nearest, within the usual tolerance of
   * such parts. To offer it would be to offer what is in. NaN for none.
   */
  private static double partThatIsIn(Slot slot, double[] choices, double now) {
    double nearest = Double.NaN;
    double least = Math.log1p(slot.quantity().usualTolerance());
    for (double choice : choices) {
      double off = Math.abs(Math.log(choice / now));
      if (off <= least) {
        least = off;
        nearest = choice;
      }
    }
    return nearest;
  }

  private static double[] series(PreferredNumbers numbers, double least, double most) {
    List<Double> values = new ArrayList<>();
    for (int e = -12; e <= 6; e++) {
      for (double step : numbers.decade()) {
        double value = Double.parseDouble(step + "e" + e);
        if (value >= least * 0.999 && value <= most * 1.001) {
          values.add(value);
        }
      }
    }
    return values.stream().mapToDouble(v -> v).toArray();
  }
}
