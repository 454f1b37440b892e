package org.trebleproof.bench.mod.turn;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.Set;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.Knowledge;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.quantity.Marking;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.Unit;

/**
 * What controls can stand at: values that are sold, and what the guitar has. The values that are
 * sold are common practice, no source.
 */
final class StopLists {
  private static final double[] POTS = {100e3, 250e3, 300e3, 500e3, 1e6, 2e6};
  private static final double[] TONE_CAPACITORS = {
    2.2e-9, 4.7e-9, 6.8e-9, 10e-9, 15e-9, 22e-9, 33e-9, 47e-9, 68e-9, 100e-9
  };
  private static final double[] INPUTS = {47e3, 100e3, 220e3, 470e3, 1e6, 2.2e6, 10e6};
  private static final double[] METRES = {1.5, 3, 4.5, 6, 9, 12, 15};

  /** Of a guitar lead [F/m] (common practice, no source). */
  private static final double PER_METRE = 100e-12;

  private static final double[] BLEEDS = {680e-12, 1e-9};
  private static final double BLEED_RESISTOR = 150e3;
  private static final int DIGITS = 3;
  private static final double SAME = 1e-9;
  static final String LEAD = "lead";

  private final Knowledge knowledge;

  StopLists(SignalChain chain) {
    this.knowledge = chain.knowledge();
  }

  /** The stops of a slot, those of the layouts' own parts among them. */
  List<Stop> of(Slot slot, List<Layout> layouts) {
    List<Stop> values = new ArrayList<>();
    for (Map.Entry<String, Double> sold : sold(slot).entrySet()) {
      double sd = slot.quantity().unstated(sold.getValue()).logSd();
      values.add(new Stop.Marked(sold.getKey(), sold.getValue(), sd));
    }
    Set<String> parts = new LinkedHashSet<>();
    layouts.forEach(l -> l.part(slot).ifPresent(parts::add));
    for (String part : parts) {
      if (values.stream().noneMatch(s -> same(s, part, slot))) {
        values.add(new Stop.Known(label(part, slot), named(part, slot), part, value(part)));
      }
    }
    values.sort(Comparator.comparingDouble(StopLists::size));
    if (slot == Slot.CABLE) {
      values.add(0, new Stop.Nothing("no lead"));
    } else if (slot == Slot.INPUT) {
      values.add(new Stop.Nothing("nothing plugged in"));
    }
    return values;
  }

  private static Map<String, Double> sold(Slot slot) {
    Map<String, Double> sold = new LinkedHashMap<>();
    if (slot == Slot.CABLE) {
      for (double metres : METRES) {
        String label =
            TradeNotation.print(metres, Unit.RATIO, DIGITS)
                + " m ("
                + TradeNotation.print(metres * PER_METRE, Unit.FARAD, DIGITS)
                + ")";
        sold.put(label, metres * PER_METRE);
      }
      return sold;
    }
    double[] values = slot == Slot.INPUT ? INPUTS : slot.turns() ? POTS : TONE_CAPACITORS;
    for (double value : values) {
      sold.put(TradeNotation.print(value, slot.quantity().unit(), DIGITS), value);
    }
    return sold;
  }

  /** The number of the stop at which a layout stands. */
  double at(List<Stop> stops, Slot slot, Layout layout) {
    if (layout.part(slot).isEmpty()) {
      return number(stops, Stop.Nothing.class::isInstance);
    }
    String part = layout.part(slot).get();
    return number(stops, s -> same(s, part, slot));
  }

  /** The number of the stop of a value that is sold. */
  static double sold(List<Stop> stops, double value) {
    return number(
        stops, s -> s instanceof Stop.Marked m && Math.abs(Math.log(m.value() / value)) < SAME);
  }

  private static double number(List<Stop> stops, java.util.function.Predicate<Stop> wanted) {
    for (int i = 0; i < stops.size(); i++) {
      if (wanted.test(stops.get(i))) {
        return i;
      }
    }
    return 0;
  }

  /** Whether a stop is that part: itself, or a value of which no more than the marking is known. */
  private boolean same(Stop stop, String part, Slot slot) {
    if (stop instanceof Stop.Known known) {
      return known.part().equals(part);
    }
    Marking marking = knowledge.markings().get(part);
    return stop instanceof Stop.Marked marked
        && marking != null
        && Math.abs(Math.log(marking.value() / marked.value())) < SAME
        && marking.tolerance() == slot.quantity().usualTolerance();
  }

  private static double size(Stop stop) {
    if (stop instanceof Stop.Marked marked) {
      return marked.value();
    }
    return stop instanceof Stop.Known known ? known.value() : 0;
  }

  private double value(String part) {
    return Math.exp(knowledge.logMean()[knowledge.index(part)]);
  }

  private String label(String part, Slot slot) {
    Marking marking = knowledge.markings().get(part);
    if (marking != null) {
      return TradeNotation.print(marking.value(), slot.quantity().unit(), DIGITS)
          + (marking.stated()
              ? " \u00b1"
                  + TradeNotation.print(100 * marking.tolerance(), Unit.RATIO, DIGITS)
                  + " %"
              : "");
    }
    return TradeNotation.print(value(part), slot.quantity().unit(), DIGITS);
  }

  private String named(String part, Slot slot) {
    if (part.equals(Layout.RECORDER_RESISTANCE)) {
      return "the recorder";
    }
    boolean says =
        !knowledge.markings().containsKey(part)
            && !part.equalsIgnoreCase(slot.noun())
            && !part.equalsIgnoreCase(LEAD);
    return says ? part : "";
  }

  /** Treble bleeds: none, the usual ones, and the layouts' own. */
  List<Stop> bleeds(List<Layout> layouts) {
    List<Stop> stops = new ArrayList<>(List.of(new Stop.Nothing("none")));
    double sd = Slot.BLEED_CAPACITOR.quantity().unstated(1).logSd();
    for (double farad : BLEEDS) {
      stops.add(bleed(farad, OptionalDouble.empty(), false, sd));
    }
    stops.add(bleed(BLEEDS[1], OptionalDouble.of(BLEED_RESISTOR), false, sd));
    stops.add(bleed(BLEEDS[1], OptionalDouble.of(BLEED_RESISTOR), true, sd));
    for (Layout layout : layouts) {
      if (layout.part(Slot.BLEED_CAPACITOR).isPresent()
          && stops.stream().noneMatch(own(layout)::equals)) {
        stops.add(own(layout));
      }
    }
    return stops;
  }

  double atBleed(List<Stop> stops, Layout layout) {
    return layout.part(Slot.BLEED_CAPACITOR).isEmpty()
        ? 0
        : number(stops, s -> s.equals(own(layout)));
  }

  private Stop.Bleed own(Layout layout) {
    String part = layout.part(Slot.BLEED_CAPACITOR).orElseThrow();
    int index = knowledge.index(part);
    OptionalDouble ohm =
        layout.part(Slot.BLEED_RESISTOR).stream().mapToDouble(this::value).findFirst();
    return bleed(
        Double.parseDouble(String.format(java.util.Locale.ROOT, "%.9e", value(part))),
        ohm,
        layout.bleedInSeries(),
        Math.sqrt(knowledge.logCovariance()[index][index]));
  }

  private static Stop.Bleed bleed(double farad, OptionalDouble ohm, boolean inSeries, double sd) {
    String label = TradeNotation.print(farad, Unit.FARAD, DIGITS);
    if (ohm.isPresent()) {
      String resistor = TradeNotation.print(ohm.getAsDouble(), Unit.OHM, DIGITS);
      label += inSeries ? " and " + resistor + " in series" : ", " + resistor + " across it";
    }
    return new Stop.Bleed(label, farad, ohm, inSeries && ohm.isPresent(), sd);
  }
}
