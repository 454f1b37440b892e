package org.trebleproof.bench.mod.turn;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.circuit.Harness;
import org.trebleproof.quantity.Refusal;

/** The wirings that can be picked: before, after, and of several pickups which are on and how. */
final class WiringChoices {
  private static final String FRESH = OwnName.of("wiring");

  private final Map<Layout, String> labels = new LinkedHashMap<>();
  private final SignalChain chain;

  WiringChoices(SignalChain chain, Layout now, Layout then) {
    this.chain = chain;
    add(now, "before");
    add(then, "after");
    if (now.selector() == 0 && !now.ownControls() && !now.tapped()) {
      pickups(now);
    }
  }

  private void add(Layout layout, String side) {
    Layout turned = TurnedLayout.of(layout);
    String label = label(layout);
    if (!labels.containsKey(turned)) {
      labels.put(turned, labels.containsValue(label) ? label + ", wired as " + side : label);
    }
  }

  private void pickups(Layout now) {
    List<String> names = List.copyOf(chain.coils().keySet());
    for (String name : names) {
      offer(now, Map.of("pickups", name));
    }
    for (int i = 0; i < names.size(); i++) {
      for (int j = i + 1; j < names.size(); j++) {
        String both = names.get(i) + "+" + names.get(j);
        offer(now, Map.of("pickups", both, "joint", "parallel", "phase", "in"));
        offer(now, Map.of("pickups", both, "joint", "series", "phase", "in"));
        offer(now, Map.of("pickups", both, "joint", "parallel", "phase", "out"));
      }
    }
  }

  /** A wiring that may be refused, and is left out then. */
  private void offer(Layout now, Map<String, String> changes) {
    try {
      Layout layout = chain.with(FRESH, now, changes).layouts().get(FRESH);
      TurnedLayout.wired(TurnedLayout.known(chain), TurnedLayout.of(layout));
      add(layout, "");
    } catch (Refusal silent) {
      return; // such pickups cancel, or cannot be joined so
    }
  }

  private static String label(Layout layout) {
    List<Integer> on = layout.sounding();
    List<String> names = on.stream().map(layout.pickups()::get).toList();
    String label = String.join(" and ", names);
    if (names.size() > 1) {
      label += layout.joint() == Harness.Joint.SERIES ? " in series" : " in parallel";
      label += layout.secondOutput() < 0 ? ", out of phase" : "";
    }
    if (layout.tapped()) {
      label += layout.part(Slot.TAP_RESISTOR).isPresent() ? ", tapped in part" : ", tapped";
    }
    return label;
  }

  /** The turned layouts, in the order of the stops. */
  List<Layout> layouts() {
    return List.copyOf(labels.keySet());
  }

  List<Stop> stops() {
    List<Stop> stops = new ArrayList<>();
    for (String label : labels.values()) {
      stops.add(new Stop.Wiring(label, stops.size()));
    }
    return stops;
  }

  double at(Layout layout) {
    return layouts().indexOf(TurnedLayout.of(layout));
  }
}
