package org.trebleproof.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.IntUnaryOperator;

/**
 * Writes a {@link Harness} as a netlist. Wires join nodes while it is written; numbers without gaps
 * are given at the end.
 */
final class HarnessNetlist {
  private static final int GROUND = 0;

  private final Harness harness;
  private final List<Element> elements = new ArrayList<>();

  /** Node that stands for each node: itself, or one it is wired to. */
  private final List<Integer> wired = new ArrayList<>(List.of(GROUND));

  /** Whether the first branch's pickup is written too. */
  private final boolean whole;

  HarnessNetlist(Harness harness, boolean whole) {
    this.harness = harness;
    this.whole = whole;
  }

  Circuit circuit() {
    int first = 0;
    int joint = -1;
    for (Harness.Branch branch : harness.branches()) {
      boolean series = harness.joint() == Harness.Joint.SERIES;
      int cold = series && joint >= 0 ? joint : GROUND;
      int hot = first == 0 && !whole ? node() : coils(branch, cold);
      first = first == 0 ? hot : first;
      int out = controls(branch.controls(), cold, hot);
      if (!series && joint >= 0) {
        wire(joint, out);
      }
      joint = out;
    }
    int jack = controls(harness.master(), GROUND, joint);
    Harness.Output output = harness.output();
    output.cable().ifPresent(c -> elements.add(new Element.Capacitor(GROUND, jack, c)));
    output
        .inputResistance()
        .ifPresent(
            r ->
                elements.add(
                    output
                        .coupling()
                        .<Element>map(
                            c -> new Element.CoupledInput(jack, r, c.corner(), c.aheadOdds()))
                        .orElseGet(() -> new Element.Resistor(GROUND, jack, r))));
    output.inputCapacitance().ifPresent(c -> elements.add(new Element.Capacitor(GROUND, jack, c)));
    for (GuitarWiring.Clipped part : output.across()) {
      elements.add(
          part.kind() == GuitarWiring.Clipped.Kind.CAPACITOR
              ? new Element.Capacitor(GROUND, jack, part.parameter())
              : new Element.Resistor(GROUND, jack, part.parameter()));
    }
    output
        .seriesDrive()
        .ifPresent(d -> elements.add(new Element.SeriesDrive(jack, d.resistor(), d.stray())));
    return numbered(jack, first);
  }

  /** The coils of a branch; answers its hot end. */
  private int coils(Harness.Branch branch, int cold) {
    int below = cold;
    int junction = -1;
    for (Harness.Source source : branch.coils()) {
      int inner = source.coil().innerNodes() > 0 ? node() : GROUND;
      int hot = node();
      int from = below;
      // The model's own numbers: 0 its cold end, 1 its hot end, 2 its inner node.
      IntUnaryOperator place = n -> n == 0 ? from : n == 1 ? hot : inner;
      source.coil().elements(source.name(), 1, 2).stream()
          .map(e -> warmed(placed(e, place, source.output()), source.warmth()))
          .forEach(elements::add);
      if (branch.coils().size() == 1) {
        junction = inner;
      } else if (junction < 0) {
        junction = hot;
      }
      below = hot;
    }
    if (branch.tap().isPresent()) {
      int tapped = junction;
      branch
          .tap()
          .get()
          .resistor()
          .ifPresentOrElse(
              r -> elements.add(new Element.Resistor(cold, tapped, r)), () -> wire(cold, tapped));
    }
    return below;
  }

  /** Controls from a hot node on; answers the node they lead to. */
  private int controls(Harness.Controls controls, int cold, int hot) {
    int before = controls.bassCut().map(cut -> bassCut(cut, hot)).orElse(hot);
    int after = controls.volume().map(pot -> volume(pot, controls, cold, before)).orElse(before);
    controls
        .tone()
        .ifPresent(
            tone -> {
              int at = controls.toneAfterVolume() ? after : before;
              if (tone.odds().isPresent()) {
                int inner = node();
                elements.add(
                    new Element.WiperResistor(inner, at, tone.pot(), tone.odds().get(), false));
                elements.add(new Element.Capacitor(cold, inner, tone.capacitor()));
                return;
              }
              elements.add(
                  tone.share() > 0
                      ? new Element.ResistorCapacitor(
                          cold, at, tone.pot(), tone.share(), tone.capacitor())
                      : new Element.Capacitor(cold, at, tone.capacitor()));
            });
    return after;
  }

  private int bassCut(Harness.BassCut cut, int hot) {
    if (cut.pot().isPresent() && cut.share() == 0) {
      return hot;
    }
    int after = node();
    elements.add(new Element.Capacitor(hot, after, cut.capacitor()));
    cut.pot()
        .ifPresent(
            pot ->
                elements.add(
                    cut.odds().isPresent()
                        ? new Element.WiperResistor(hot, after, pot, cut.odds().get(), false)
                        : new Element.Resistor(hot, after, pot, cut.share())));
    return after;
  }

  private int volume(GuitarWiring.Volume pot, Harness.Controls controls, int cold, int hot) {
    if (pot.wiper() == 1) {
      if (pot.end().isEmpty()) {
        elements.add(new Element.Resistor(cold, hot, pot.pot()));
        return hot;
      }
      int wiper = node();
      elements.add(new Element.Resistor(cold, controls.independent() ? hot : wiper, pot.pot()));
      elements.add(new Element.Resistor(hot, wiper, pot.end().get()));
      return wiper;
    }
    int out = node();
    int below = controls.independent() ? hot : out;
    if (pot.odds().isPresent()) {
      String odds = pot.odds().get();
      elements.add(new Element.WiperResistor(cold, below, pot.pot(), odds, false));
      elements.add(new Element.WiperResistor(out, hot, pot.pot(), odds, true));
    } else {
      elements.add(new Element.Resistor(cold, below, pot.pot(), pot.wiper()));
      elements.add(new Element.Resistor(out, hot, pot.pot(), 1 - pot.wiper()));
    }
    controls.bleed().ifPresent(bleed -> bleed(bleed, out, hot));
    return out;
  }

  private void bleed(Harness.TrebleBleed bleed, int out, int hot) {
    if (bleed.resistor().isPresent() && bleed.inSeries()) {
      elements.add(
          new Element.ResistorCapacitor(out, hot, bleed.resistor().get(), 1, bleed.capacitor()));
      return;
    }
    elements.add(new Element.Capacitor(out, hot, bleed.capacitor()));
    bleed.resistor().ifPresent(r -> elements.add(new Element.Resistor(out, hot, r)));
  }

  private int node() {
    wired.add(wired.size());
    return wired.size() - 1;
  }

  private void wire(int a, int b) {
    int low = Math.min(root(a), root(b));
    wired.set(Math.max(root(a), root(b)), low);
  }

  private int root(int node) {
    int at = node;
    while (wired.get(at) != at) {
      at = wired.get(at);
    }
    return at;
  }

  /** The same netlist with nodes 0, 1, 2 and on; elements with both ends on ground are dropped. */
  private Circuit numbered(int jack, int pickup) {
    int[] numbers = new int[wired.size()];
    int next = 0;
    for (int node = 1; node < numbers.length; node++) {
      if (root(node) == node) {
        numbers[node] = ++next;
      }
    }
    IntUnaryOperator number = node -> numbers[root(node)];
    List<Element> all =
        elements.stream()
            .map(e -> placed(e, number, 1))
            .filter(
                e -> e instanceof Element.CoupledCoils || e.nodes().stream().distinct().count() > 1)
            .toList();
    return new Circuit(all, number.applyAsInt(jack), number.applyAsInt(pickup));
  }

  /** An element between other nodes, its induced voltage multiplied. */
  private static Element placed(Element element, IntUnaryOperator to, double output) {
    if (element instanceof Element.Resistor r) {
      return new Element.Resistor(
          to.applyAsInt(r.from()), to.applyAsInt(r.to()), r.resistance(), r.share());
    } else if (element instanceof Element.WiperResistor w) {
      return new Element.WiperResistor(
          to.applyAsInt(w.from()), to.applyAsInt(w.to()), w.resistance(), w.odds(), w.above());
    } else if (element instanceof Element.SeriesDrive d) {
      return new Element.SeriesDrive(to.applyAsInt(d.to()), d.resistance(), d.across());
    } else if (element instanceof Element.CoupledInput i) {
      return new Element.CoupledInput(
          to.applyAsInt(i.to()), i.resistance(), i.corner(), i.aheadOdds());
    } else if (element instanceof Element.Capacitor c) {
      return new Element.Capacitor(to.applyAsInt(c.from()), to.applyAsInt(c.to()), c.capacitance());
    } else if (element instanceof Element.LossyCapacitor c) {
      return new Element.LossyCapacitor(
          to.applyAsInt(c.from()),
          to.applyAsInt(c.to()),
          c.capacitance(),
          c.lossTangent(),
          c.constantPhase());
    } else if (element instanceof Element.ResistorCapacitor rc) {
      return new Element.ResistorCapacitor(
          to.applyAsInt(rc.from()),
          to.applyAsInt(rc.to()),
          rc.resistance(),
          rc.share(),
          rc.capacitance());
    } else if (element instanceof Element.Coil c) {
      return placed(c, to, output);
    } else if (element instanceof Element.CoupledCoils pair) {
      return new Element.CoupledCoils(
          placed(pair.first(), to, output),
          placed(pair.second(), to, output),
          pair.couplingOdds(),
          pair.common(),
          pair.inducedOdds());
    }
    throw new IllegalStateException("no place in a harness for " + element);
  }

  /** An element with its copper warmer by a factor. */
  private static Element warmed(Element element, Optional<String> warmth) {
    if (warmth.isEmpty()) {
      return element;
    }
    if (element instanceof Element.Coil c) {
      return warmed(c, warmth.get());
    }
    return element instanceof Element.CoupledCoils pair
        ? new Element.CoupledCoils(
            warmed(pair.first(), warmth.get()),
            warmed(pair.second(), warmth.get()),
            pair.couplingOdds(),
            pair.common(),
            pair.inducedOdds())
        : element;
  }

  private static Element.Coil warmed(Element.Coil c, String warmth) {
    return new Element.Coil(c.from(), c.to(), c.winding().warmed(warmth), c.emfShare());
  }

  private static Element.Coil placed(Element.Coil c, IntUnaryOperator to, double output) {
    return new Element.Coil(
        to.applyAsInt(c.from()), to.applyAsInt(c.to()), c.winding(), c.emfShare() * output);
  }
}
