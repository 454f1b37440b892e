package org.trebleproof.bench.mod.explain;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.WiredCircuit;

/** What takes treble from a wiring: each cause, and how the wiring is without it. */
final class TrebleCauses {

  private final TrebleReference reference;
  private final Layout layout;
  private final List<Cause> causes = new ArrayList<>();

  /**
   * One thing that could be otherwise.
   *
   * @param key what it is, whatever it is called
   * @param name as a sentence says it
   * @param without the wiring as it is without it
   */
  record Cause(String key, String name, UnaryOperator<Layout> without) {}

  TrebleCauses(TrebleReference reference, Layout wiring) {
    this.reference = reference;
    this.layout = reference.counted(wiring);
    // The order only decides how they are listed where they take the same.
    if (has(Slot.VOLUME)) {
      add(Slot.VOLUME, TrebleCauses::withoutVolume);
    }
    if (has(Slot.SECOND_VOLUME) || has(Slot.SECOND_TONE) || layout.sounding().size() > 1) {
      String second = CauseNames.SECOND_PICKUP;
      causes.add(new Cause(second, second, TrebleCauses::withoutSecond));
    }
    if (has(Slot.TONE)) {
      add(
          Slot.TONE,
          l -> l.with(Slot.TONE, (String) null).with(Slot.TONE_CAPACITOR, (String) null));
    }
    if (turnedDown(Slot.VOLUME) || turnedDown(Slot.TONE)) {
      String turned = CauseNames.TURNED_DOWN;
      causes.add(new Cause(turned, turned, l -> fullUp(fullUp(l, Slot.VOLUME), Slot.TONE)));
    }
    if (has(Slot.BASS_CAPACITOR)) {
      add(
          Slot.BASS_POT,
          l -> l.with(Slot.BASS_POT, (String) null).with(Slot.BASS_CAPACITOR, (String) null));
    }
    for (Slot load : List.of(Slot.LOAD_RESISTOR, Slot.LOAD_CAPACITOR)) {
      if (has(load)) {
        add(load, l -> l.with(load, (String) null));
      }
    }
    if (has(Slot.CABLE) && !layout.part(Slot.CABLE).equals(reference.lead())) {
      causes.add(
          new Cause(CauseNames.cause(Slot.CABLE), CauseNames.lead(layout), reference::onLead));
    }
    if (has(Slot.INPUT)) {
      add(Slot.INPUT, reference::intoInput);
    }
  }

  private void add(Slot slot, UnaryOperator<Layout> without) {
    String name = CauseNames.cause(slot);
    causes.add(new Cause(name, name, without));
  }

  List<Cause> list() {
    return List.copyOf(causes);
  }

  private static Layout withoutVolume(Layout l) {
    return l.with(Slot.BLEED_RESISTOR, (String) null)
        .with(Slot.BLEED_CAPACITOR, (String) null)
        .with(Slot.VOLUME, (String) null);
  }

  private static Layout withoutSecond(Layout l) {
    return l.with(Slot.SECOND_VOLUME, (String) null)
        .with(Slot.SECOND_TONE, (String) null)
        .with(Slot.SECOND_TONE_CAPACITOR, (String) null)
        .withPickups(List.of(l.pickups().get(l.sounding().get(0))))
        .withSecondOutput(1)
        .withSelector(0);
  }

  private static Layout fullUp(Layout l, Slot pot) {
    return l.with(pot, new Layout.Turned(1, l.turned(pot).centreRatio()));
  }

  private boolean has(Slot slot) {
    return layout.part(slot).isPresent();
  }

  private boolean turnedDown(Slot pot) {
    return has(pot) && layout.turned(pot).rotation() < 1;
  }

  /** The wiring with a set of causes in place, one bit for each, and all others taken away. */
  private Layout with(int set) {
    Layout l = layout;
    for (int c = 0; c < causes.size(); c++) {
      if ((set >> c & 1) == 0) {
        l = causes.get(c).without().apply(l);
      }
    }
    return l;
  }

  /** The reference itself. */
  Layout none() {
    return with(0);
  }

  /**
   * Shares the loss at some frequencies.
   *
   * @param chain the guitar under one coil model, with the parts of the reference
   * @param sloped whether the gradients are wanted
   */
  LossShares shares(SignalChain chain, double[] hz, boolean sloped) {
    double[] log = chain.knowledge().logMean();
    Map<Layout, WiredCircuit.Levels> known = new HashMap<>();
    List<WiredCircuit.Levels> levels = new ArrayList<>();
    for (int set = 0; set < 1 << causes.size(); set++) {
      levels.add(
          known.computeIfAbsent(
              with(set),
              l -> {
                WiredCircuit wired = WiredCircuit.of(chain, l);
                return sloped ? wired.slopes(log, hz) : wired.levels(log, hz);
              }));
    }
    return LossShares.of(levels);
  }

  TrebleReference reference() {
    return reference;
  }
}
