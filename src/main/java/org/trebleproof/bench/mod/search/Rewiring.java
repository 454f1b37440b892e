package org.trebleproof.bench.mod.search;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.circuit.Harness;

/**
 * A way in which the pickups that are known and the parts that are there could be wired.
 *
 * @param words what is wired otherwise; empty for the wiring as it is
 * @param changes how many changes that counts as
 * @param layout the wiring
 */
record Rewiring(List<String> words, int changes, Layout layout) {

  Rewiring {
    words = List.copyOf(words);
  }

  /** Every way there is, the wiring as it is first. */
  static List<Rewiring> of(SignalChain chain, Layout now) {
    List<Rewiring> all = new ArrayList<>();
    all.add(new Rewiring(List.of(), 0, now));
    String first = now.pickups().get(0);
    boolean simple = now.selector() == 0 && !now.ownControls();
    if (simple && now.pickups().size() == 1) {
      for (String other : chain.coils().keySet()) {
        if (!other.equals(first)) {
          for (Harness.Joint joint : Harness.Joint.values()) {
            Layout both = wired(now, List.of(first, other), joint, 1, now.tapped(), false);
            all.add(change(other + " on as well, in " + name(joint), both));
          }
        }
      }
    } else if (simple && now.pickups().size() == 2) {
      Harness.Joint other =
          now.joint() == Harness.Joint.SERIES ? Harness.Joint.PARALLEL : Harness.Joint.SERIES;
      all.add(
          change(
              "pickups in " + name(other),
              wired(now, now.pickups(), other, now.secondOutput(), now.tapped(), false)));
      for (String alone : now.pickups()) {
        all.add(
            change(
                alone + " alone",
                wired(
                    now,
                    List.of(alone),
                    Harness.Joint.PARALLEL,
                    1,
                    now.tapped() && alone.equals(first),
                    false)));
      }
    }
    boolean twoCoils =
        chain.coils().containsKey(first) && chain.coils().get(first).innerNodes() > 0;
    if (twoCoils && !now.tapped()) {
      all.add(
          change(
              "coil tapped",
              wired(now, now.pickups(), now.joint(), now.secondOutput(), true, false)));
    }
    boolean down = now.part(Slot.VOLUME).isPresent() && now.turned(Slot.VOLUME).rotation() < 1;
    if (down && !now.bleedInSeries()) {
      // Where the bleed's two parts are new, how they are soldered is no further change.
      int changes = now.part(Slot.BLEED_CAPACITOR).isPresent() ? 1 : 0;
      Layout series =
          wired(now, now.pickups(), now.joint(), now.secondOutput(), now.tapped(), true);
      all.add(new Rewiring(List.of("treble bleed in series"), changes, series));
    }
    return all;
  }

  private static Rewiring change(String words, Layout layout) {
    return new Rewiring(List.of(words), 1, layout);
  }

  private static String name(Harness.Joint joint) {
    return joint == Harness.Joint.SERIES ? "series" : "parallel";
  }

  private static Layout wired(
      Layout now,
      List<String> pickups,
      Harness.Joint joint,
      double output,
      boolean tapped,
      boolean bleedInSeries) {
    return now.withPickups(pickups)
        .withBleedInSeries(now.bleedInSeries() || bleedInSeries)
        .withJoint(joint)
        .withSecondOutput(output)
        .withTapped(tapped);
  }
}
