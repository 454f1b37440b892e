package org.trebleproof.bench.mod.turn;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;
import org.trebleproof.circuit.Circuit;
import org.trebleproof.quantity.Refusal;

/** Puts a guitar together that can be turned elsewhere. */
public final class TurnTable {
  /** Random guitars to take along: a band steady to a tenth of itself. */
  private static final int DRAWS = 200;

  private static final long SEED = 19;

  private final SignalChain chain;
  private final Layout now;
  private final Layout then;
  private final WiringChoices wirings;
  private final StopLists stops;
  private final List<TurnControl> controls = new ArrayList<>();

  private TurnTable(SignalChain chain, Layout now, Layout then) {
    this.chain = chain;
    this.now = now;
    this.then = then;
    this.wirings = new WiringChoices(chain, now, then);
    this.stops = new StopLists(chain);
    addControls();
  }

  /**
   * A guitar that can be turned.
   *
   * @param chain what is known, with the parts of both layouts
   * @param now its wiring before
   * @param then its wiring after
   * @throws Refusal when it cannot be wired so
   */
  public static TurnableGuitar of(SignalChain chain, Layout now, Layout then) {
    return new TurnTable(chain, now, then).guitar();
  }

  /**
   * What a job of several setups has before, when nothing else is asked for: its first setup, where
   * the guitar is in another one now.
   */
  public static Optional<String> earlier(SignalChain chain) {
    return chain.layouts().keySet().stream().findFirst().filter(n -> !n.equals(chain.current()));
  }

  private TurnableGuitar guitar() {
    List<List<Circuit>> circuits = new ArrayList<>();
    List<Set<String>> names = new ArrayList<>();
    List<SignalChain> models = chain.models().stream().map(TurnedLayout::known).toList();
    List<Map<String, double[]>> columns = new ArrayList<>();
    List<double[][]> logs = new ArrayList<>();
    for (int m = 0; m < models.size(); m++) {
      SignalChain model = models.get(m);
      int share = (int) Math.round(model.weight() * DRAWS);
      names.add(new LinkedHashSet<>());
      columns.add(new LinkedHashMap<>());
      logs.add(model.knowledge().draws(m == 0 ? Math.max(1, share) : share, SEED + m));
    }
    for (Layout layout : wirings.layouts()) {
      List<Circuit> each = new ArrayList<>();
      for (int m = 0; m < models.size(); m++) {
        WiredCircuit wired = TurnedLayout.wired(models.get(m), layout);
        each.add(wired.circuit());
        collect(models.get(m), wired, logs.get(m), columns.get(m));
      }
      circuits.add(each);
    }
    for (int m = 0; m < models.size(); m++) {
      collectParts(models.get(m), logs.get(m), columns.get(m));
    }
    List<TurnableGuitar.Values> values = columns.stream().map(TurnTable::values).toList();
    TurnSettings before = settings(now);
    return new TurnableGuitar(
        chain.title(),
        values,
        circuits,
        controls,
        before,
        settings(then),
        new TriedSayings(chain, now, controls).all());
  }

  /** A column for each parameter that no control sets: the middle, then one value a draw. */
  private static void collect(
      SignalChain model, WiredCircuit wired, double[][] logs, Map<String, double[]> columns) {
    List<String> parameters = wired.circuit().parameters();
    double[] centre = wired.values(model.knowledge().logMean());
    for (int p = 0; p < parameters.size(); p++) {
      if (!TurnedLayout.isTurned(parameters.get(p))) {
        columns.computeIfAbsent(parameters.get(p), n -> new double[logs.length + 1])[0] = centre[p];
      }
    }
    for (int d = 0; d < logs.length; d++) {
      double[] drawn = wired.values(logs[d]);
      for (int p = 0; p < parameters.size(); p++) {
        if (!TurnedLayout.isTurned(parameters.get(p))) {
          columns.get(parameters.get(p))[d + 1] = drawn[p];
        }
      }
    }
  }

  /** The same for the parts that controls can be set to. */
  private void collectParts(SignalChain model, double[][] logs, Map<String, double[]> columns) {
    for (TurnControl control : controls) {
      for (Stop stop : control.stops()) {
        if (stop instanceof Stop.Known known) {
          int index = model.knowledge().index(known.part());
          double[] column = new double[logs.length + 1];
          column[0] = Math.exp(model.knowledge().logMean()[index]);
          for (int d = 0; d < logs.length; d++) {
            column[d + 1] = Math.exp(logs[d][index]);
          }
          columns.put(known.part(), column);
        }
      }
    }
  }

  private static TurnableGuitar.Values values(Map<String, double[]> columns) {
    List<String> names = List.copyOf(columns.keySet());
    int count = columns.values().stream().mapToInt(c -> c.length).max().orElse(1);
    double[] centre = new double[names.size()];
    double[][] draws = new double[count - 1][names.size()];
    for (int i = 0; i < centre.length; i++) {
      double[] column = columns.get(names.get(i));
      centre[i] = column[0];
      for (int d = 0; d < draws.length; d++) {
        draws[d][i] = column[d + 1];
      }
    }
    return new TurnableGuitar.Values(names, centre, draws);
  }

  private void addControls() {
    controls.add(
        new TurnControl(TurnControl.WIRING, "pickups", TurnControl.Kind.CHOICE, wirings.stops()));
    List<Layout> both = List.of(now, then);
    for (Slot slot : TurnedLayout.EXCHANGED) {
      if (wirings.layouts().stream().anyMatch(l -> l.part(slot).isPresent())) {
        String label = slot == Slot.CABLE ? StopLists.LEAD : slot.noun();
        controls.add(
            new TurnControl(slot.key(), label, TurnControl.Kind.STOPS, stops.of(slot, both)));
        addKnob(slot);
        if (slot == Slot.TONE_CAPACITOR) {
          addBleed(both);
        }
      }
    }
    if (!has(TurnControl.BLEED)) {
      addBleed(both);
    }
    addKnob(Slot.BASS_POT);
  }

  private void addKnob(Slot slot) {
    if (slot.turns() && wirings.layouts().stream().anyMatch(l -> l.part(slot).isPresent())) {
      String label = slot.noun().replace(" pot", "") + " turned";
      controls.add(
          new TurnControl(
              slot.key() + TurnControl.ROTATION, label, TurnControl.Kind.TURN, List.of()));
    }
  }

  private void addBleed(List<Layout> both) {
    if (wirings.layouts().stream().anyMatch(l -> l.part(Slot.VOLUME).isPresent())) {
      controls.add(
          new TurnControl(
              TurnControl.BLEED, "treble bleed", TurnControl.Kind.CHOICE, stops.bleeds(both)));
    }
  }

  private boolean has(String key) {
    return controls.stream().anyMatch(c -> c.key().equals(key));
  }

  private TurnSettings settings(Layout layout) {
    Map<String, Double> values = new LinkedHashMap<>();
    for (TurnControl control : controls) {
      if (control.key().equals(TurnControl.WIRING)) {
        values.put(control.key(), wirings.at(layout));
      } else if (control.key().equals(TurnControl.BLEED)) {
        values.put(control.key(), stops.atBleed(control.stops(), layout));
      }
    }
    for (Slot slot : Slot.values()) {
      controls.stream()
          .filter(c -> c.key().equals(slot.key()))
          .forEach(c -> values.put(slot.key(), stops.at(c.stops(), slot, layout)));
      if (slot.turns()) {
        values.put(slot.key() + TurnControl.ROTATION, layout.turned(slot).rotation());
        values.put(slot.key() + TurnControl.CENTRE, layout.turned(slot).centreRatio());
      }
    }
    return new TurnSettings(values);
  }
}
