package org.trebleproof.report.schematic;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.OwnName;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.circuit.Harness;

/**
 * Draws a layout as a circuit, from the strings to the amplifier. A row for each pickup; pickups in
 * series stand on each other as they do electrically. A pot's wiper stands where the pot is turned.
 * What differs from another layout is set off.
 */
public final class Draughtsman {
  private static final double DEPTH = 164;
  private static final double ABOVE = 62;
  private static final double ABOVE_BRIDGED = 122;
  private static final double BETWEEN = 66;
  private static final double COLUMN = 124;
  private static final double LEFT = 34;
  private static final double BELOW = 26;

  private static final double JACK_CLEAR = 26;

  /** A value with more letters than this runs into what stands beside it. */
  private static final int LONGEST_BESIDE = 15;

  private final Layout layout;
  private final Optional<Layout> other;
  private final Inscriptions words;
  private final Pencil pencil = new Pencil();

  private Draughtsman(Layout layout, Optional<Layout> other, Inscriptions words) {
    this.layout = layout;
    this.other = other;
    this.words = words;
  }

  /**
   * The drawing of a layout.
   *
   * @param other the layout it is compared with; parts that differ are set off
   * @param words values of the parts
   * @param title what is drawn
   */
  public static Schematic of(
      Layout layout, Optional<Layout> other, Inscriptions words, String title) {
    return new Draughtsman(layout, other, words).draw(title);
  }

  /** A stretch of two rails, being drawn from left to right. */
  private static final class Run {
    final double rail;
    final double cold;
    final Item.State state;
    double x = LEFT;
    double hotTo = LEFT;
    double coldFrom = LEFT;
    double coldTo = LEFT;

    Run(double rail, Item.State state) {
      this.rail = rail;
      this.cold = rail + DEPTH;
      this.state = state;
    }

    double middle() {
      return (rail + cold) / 2;
    }
  }

  private Schematic draw(String title) {
    boolean switched = layout.selector() != 0 && layout.joint() == Harness.Joint.PARALLEL;
    List<Integer> sounding = layout.sounding();
    List<Integer> rows =
        new ArrayList<>(
            switched ? IntStream.range(0, layout.pickups().size()).boxed().toList() : sounding);
    boolean series = layout.joint() == Harness.Joint.SERIES;
    if (series) {
      Collections.reverse(rows);
    }
    double rail = bridged() ? ABOVE_BRIDGED : ABOVE;
    List<Run> runs = new ArrayList<>();
    for (int pickup : rows) {
      Item.State state = sounding.contains(pickup) ? Item.State.PLAIN : Item.State.OFF;
      Run run = new Run(rail, state);
      coil(run, pickup);
      if (layout.ownControls()) {
        controls(run, pickup == 0);
      }
      if (switched) {
        contact(run);
      }
      runs.add(run);
      rail = run.cold + BETWEEN + (bridged() ? ABOVE_BRIDGED - ABOVE : 0);
    }
    Run main = runs.size() == 1 && !switched ? runs.get(0) : joined(runs, series);
    if (!layout.ownControls()) {
      controls(main, true);
    }
    jack(main);
    plugged(main);
    cold(main, true);
    double height = runs.get(runs.size() - 1).cold + BELOW;
    return new Schematic(main.x - 6, height, title, reading(sounding), pencil.items());
  }

  private boolean bridged() {
    return layout.part(Slot.BLEED_CAPACITOR).isPresent()
        || layout.part(Slot.BASS_CAPACITOR).isPresent();
  }

  /** Brings the rows together; answers the stretch that follows. */
  private Run joined(List<Run> runs, boolean series) {
    double joint = runs.stream().mapToDouble(r -> r.x).max().orElseThrow() - 12;
    Run top = runs.get(0);
    for (int i = 0; i < runs.size(); i++) {
      Run run = runs.get(i);
      hot(run, joint);
      boolean last = i == runs.size() - 1;
      if (series && !last) {
        run.coldTo = joint;
      }
      cold(run, !series || last);
      if (!last) {
        pencil.wire(
            Item.State.PLAIN, joint, series ? run.cold : run.rail, joint, runs.get(i + 1).rail);
      }
      if (!series && runs.size() > 1 && !last) {
        pencil.dot(Item.State.PLAIN, joint, run.rail);
      }
    }
    Run main = new Run(top.rail, Item.State.PLAIN);
    main.hotTo = joint;
    main.x = joint + (layout.ownControls() ? 84 : 44);
    main.coldFrom = main.x;
    main.coldTo = main.x;
    return main;
  }

  private void coil(Run run, int index) {
    String pickup = layout.pickups().get(index);
    boolean tapped = index == 0 && layout.tapped();
    boolean alone = layout.pickups().size() == 1;
    boolean reversed = index == 1 && layout.secondOutput() < 0;
    double mid = run.middle();
    pencil.lead(LEFT, run.cold, LEFT, mid + 13);
    pencil.lead(LEFT, mid - 13, LEFT, run.rail, 58, run.rail);
    pencil.circle(LEFT, mid, 13);
    wave(LEFT, mid);
    if (!alone) {
      pencil.text(Mark.Ink.ROLE, LEFT + 17, reversed ? mid + 22 : mid - 14, "+");
      pencil.text(Mark.Ink.ROLE, LEFT + 17, mid + 4, reversed ? "out of phase" : output(index));
    }
    pencil.humps(58, run.rail);
    pencil.lead(112, run.rail, 162, run.rail);
    pencil.box(162, run.rail - 7, 44, 14);
    String role = (alone ? "coil" : pickup) + (tapped ? ", both halves" : "");
    pencil.text(Mark.Ink.ROLE, 58, run.rail - 36, role);
    Inscription inductance = words.coil(pickup, Inscriptions.CoilValue.INDUCTANCE);
    value(58, run.rail - 20, inductance);
    // a long interval reaches over the resistor, whose value then stands a line higher
    boolean reaching = inductance.value().length() > LONGEST_BESIDE;
    value(
        162,
        reaching ? run.rail - 36 : run.rail - 20,
        words.coil(pickup, Inscriptions.CoilValue.RESISTANCE));
    run.hotTo = 206;
    run.x = 242;
    Inscription winding = words.coil(pickup, Inscriptions.CoilValue.CAPACITANCE);
    if (!winding.value().isEmpty()) {
      hot(run, run.x);
      pencil.capacitorUpright(run.x, mid, run.rail, run.cold);
      pencil.label(run.x + Pencil.LINE, mid - 12, tapped ? "winding, all" : "winding", winding, "");
      dots(run);
      run.x += COLUMN;
    }
    boolean changed =
        other.isPresent()
            && (!other.get().pickups().contains(pickup)
                || index == 1
                    && other.get().pickups().size() > 1
                    && other.get().secondOutput() != layout.secondOutput());
    close(Item.Kind.PICKUP, Optional.empty(), pickup, run, changed);
    if (tapped) {
      tap(run, pickup);
    }
  }

  private String output(int index) {
    double share = Math.abs(layout.secondOutput());
    return index == 1 && share != 1 ? "× " + share : "";
  }

  private void wave(double x, double y) {
    double[] xy = new double[26];
    for (int i = 0; i < 13; i++) {
      xy[2 * i] = x - 8 + 16 * i / 12.0;
      xy[2 * i + 1] = y - 4.5 * Math.sin(2 * Math.PI * i / 12);
    }
    pencil.stroke(xy);
  }

  /** The junction of the two coils to the cold end, and the coil that goes on sounding. */
  private void tap(Run run, String pickup) {
    hot(run, run.x);
    Optional<String> resistor = layout.part(Slot.TAP_RESISTOR);
    if (resistor.isPresent()) {
      pencil.resistorUpright(run.x, run.middle(), 22, run.rail, run.cold);
      label(run.x + Pencil.LINE, run.middle() - 12, "tap", Slot.TAP_RESISTOR);
      close(Slot.TAP_RESISTOR, run);
    } else {
      pencil.stroke(run.x, run.rail, run.x, run.cold);
      pencil.text(Mark.Ink.ROLE, run.x + 8, run.middle(), "tap");
      boolean changed = other.isPresent() && !other.get().tapped();
      close(Item.Kind.SWITCH, Optional.empty(), "tap", run, changed);
    }
    dots(run);
    double x = run.x + COLUMN - 14;
    hot(run, x - 13);
    pencil.circle(x, run.rail, 13);
    wave(x, run.rail);
    pencil.lead(x + 13, run.rail, x + 26, run.rail);
    pencil.humps(x + 26, run.rail);
    pencil.lead(x + 80, run.rail, x + 96, run.rail);
    pencil.box(x + 96, run.rail - 7, 44, 14);
    pencil.text(Mark.Ink.ROLE, x + 26, run.rail - 20, "second half, heard in full");
    boolean fresh = other.isPresent() && !other.get().tapped();
    close(Item.Kind.PICKUP, Optional.empty(), pickup, run, fresh);
    run.hotTo = x + 140;
    run.x = x + 180;
  }

  private void controls(Run run, boolean first) {
    if (first && layout.part(Slot.BASS_CAPACITOR).isPresent()) {
      bassCut(run);
    }
    Slot volume = first ? Slot.VOLUME : Slot.SECOND_VOLUME;
    Slot tone = first ? Slot.TONE : Slot.SECOND_TONE;
    Slot capacitor = first ? Slot.TONE_CAPACITOR : Slot.SECOND_TONE_CAPACITOR;
    if (!layout.toneAfterVolume()) {
      tone(run, tone, capacitor);
    }
    volume(run, volume, first);
    if (layout.toneAfterVolume()) {
      tone(run, tone, capacitor);
    }
  }

  private void bassCut(Run run) {
    double left = run.x - 30;
    double right = left + 84;
    double plates = (left + right) / 2;
    hot(run, left);
    pencil.capacitorLying(plates, run.rail, left, right);
    double first = run.rail - (layout.part(Slot.BASS_POT).isPresent() ? 86 : 36);
    pencil.text(Mark.Ink.ROLE, left, first, "bass cut");
    value(left, first + Pencil.LINE, words.part(Slot.BASS_CAPACITOR, named(Slot.BASS_CAPACITOR)));
    close(Slot.BASS_CAPACITOR, run);
    if (layout.part(Slot.BASS_POT).isPresent()) {
      double y = run.rail - 30;
      pencil.lead(left, run.rail, left, y);
      pencil.lead(right, y, right, run.rail);
      pencil.resistorLying(plates, y, 20, left, right);
      pencil.arrow(plates - 16, y + 13, plates + 13, y - 12);
      value(left, run.rail - 54, words.part(Slot.BASS_POT, named(Slot.BASS_POT)));
      pencil.text(Mark.Ink.ROLE, right + 6, y + 4, turned(Slot.BASS_POT));
      close(Slot.BASS_POT, run);
      pencil.dot(run.state, left, run.rail);
      pencil.dot(run.state, right, run.rail);
    }
    run.hotTo = right;
    run.x = right + 64;
  }

  private void volume(Run run, Slot slot, boolean first) {
    if (layout.part(slot).isEmpty()) {
      return;
    }
    boolean bleed = first && layout.part(Slot.BLEED_CAPACITOR).isPresent();
    boolean lying = layout.part(Slot.BLEED_RESISTOR).isPresent() && layout.bleedInSeries();
    double gap = !bleed ? 24 : lying ? 124 : 66;
    double in = run.x;
    double out = in + gap;
    double pot = layout.independent() ? out : in;
    double tip = layout.independent() ? pot - 8 : pot + 8;
    double arm = layout.independent() ? in : out;
    double mid = run.middle();
    double wiper = mid + 20 - 40 * layout.turned(slot).rotation();
    hot(run, in);
    pencil.resistorUpright(pot, mid, 26, run.rail, run.cold);
    pencil.lead(arm, run.rail, arm, wiper);
    pencil.arrow(arm, wiper, tip, wiper);
    label(out + (layout.independent() ? 14 : 8), mid + 2, word(slot) + ", " + turned(slot), slot);
    close(slot, run);
    pencil.dot(run.state, pot, run.cold);
    if (pot == in || bleed) {
      pencil.dot(run.state, in, run.rail);
    }
    run.coldTo = Math.max(run.coldTo, pot);
    if (bleed) {
      bleed(run, in, out, lying);
      pencil.dot(run.state, out, run.rail);
    }
    run.hotTo = out;
    run.x = out + COLUMN + 6;
  }

  private void bleed(Run run, double in, double out, boolean lying) {
    boolean parallel = layout.part(Slot.BLEED_RESISTOR).isPresent() && !lying;
    double y = run.rail - 26;
    double first = y - (parallel ? 56 : 32) - (lying ? 16 : 0);
    pencil.lead(in, run.rail, in, y);
    pencil.lead(out, y, out, run.rail);
    pencil.capacitorLying(lying ? out - 34 : (in + out) / 2, y, lying ? in + 60 : in, out);
    pencil.text(Mark.Ink.ROLE, in, first, "treble bleed");
    Inscription capacitor = words.part(Slot.BLEED_CAPACITOR, named(Slot.BLEED_CAPACITOR));
    value(in, first + Pencil.LINE, capacitor);
    close(Slot.BLEED_CAPACITOR, run);
    if (layout.part(Slot.BLEED_RESISTOR).isEmpty()) {
      return;
    }
    if (parallel) {
      pencil.lead(in, y, in, y - 24);
      pencil.lead(out, y - 24, out, y);
      pencil.resistorLying((in + out) / 2, y - 24, 18, in, out);
    } else {
      pencil.resistorLying(in + 38, y, 20, in, in + 60);
    }
    Inscription resistor = words.part(Slot.BLEED_RESISTOR, named(Slot.BLEED_RESISTOR));
    // Beside the capacitor's value, so that both stay above the symbols.
    value(parallel ? in + 92 : in, first + (parallel ? Pencil.LINE : 2 * Pencil.LINE), resistor);
    close(Slot.BLEED_RESISTOR, run);
  }

  private void tone(Run run, Slot pot, Slot capacitor) {
    if (layout.part(pot).isEmpty()) {
      return;
    }
    double x = run.x;
    hot(run, x);
    double wiper = run.rail + 14 + 40 * (1 - layout.turned(pot).rotation());
    pencil.lead(x, run.rail, x, run.rail + 14);
    pencil.box(x - 7, run.rail + 14, 14, 40);
    // A variable resistor: the wiper lies on the end that goes on to the capacitor.
    pencil.lead(
        x - 22, Math.min(wiper + 4, run.rail + 50), x - 22, run.rail + 60, x, run.rail + 60);
    pencil.arrow(
        x - 22, Math.min(wiper + 4, run.rail + 50), x - 8, Math.min(wiper + 4, run.rail + 50));
    pencil.lead(x, run.rail + 54, x, run.rail + 60);
    label(x + Pencil.LINE, run.rail + 24, word(pot) + ", " + turned(pot), pot);
    close(pot, run);
    pencil.capacitorUpright(x, run.cold - 44, run.rail + 60, run.cold);
    label(x + Pencil.LINE, run.cold - 40 - below(capacitor), "", capacitor);
    close(capacitor, run);
    dots(run);
    run.x += COLUMN;
  }

  /** A contact of the selector switch. */
  private void contact(Run run) {
    double x = run.x - 56;
    boolean closed = run.state != Item.State.OFF;
    hot(run, x);
    pencil.circle(x, run.rail, 3);
    pencil.circle(x + 34, run.rail, 3);
    pencil.stroke(x + 3, run.rail, closed ? x + 31 : x + 29, closed ? run.rail : run.rail - 15);
    if (run.rail <= ABOVE_BRIDGED) {
      pencil.text(Mark.Ink.ROLE, x - 16, run.rail - 36, "selector at " + layout.selector());
    }
    boolean changed = other.isPresent() && other.get().selector() != layout.selector();
    close(Item.Kind.SWITCH, Optional.empty(), "selector", run, changed && closed);
    run.hotTo = x + 37;
    run.x += 50;
  }

  private void jack(Run run) {
    // with nothing between coil and jack it keeps clear of the coil's resistance
    double x = Math.max(run.x - 44, run.hotTo + JACK_CLEAR);
    hot(run, x);
    pencil.circle(x, run.rail, 4);
    pencil.text(Mark.Ink.ROLE, x - 10, run.rail - 12, "jack");
    close(Item.Kind.WIRE, Optional.empty(), "", run, false);
    run.hotTo = x + 4;
    run.x = x + 44;
  }

  private void plugged(Run run) {
    column(run, Slot.LOAD_CAPACITOR, "across the jack");
    column(run, Slot.LOAD_RESISTOR, "across the jack");
    column(run, Slot.CABLE, "lead");
    boolean both =
        layout.part(Slot.INPUT).isPresent() && layout.part(Slot.INPUT_CAPACITANCE).isPresent();
    if (both) {
      hot(run, run.x);
      pencil.resistorUpright(run.x, run.middle(), 22, run.rail, run.cold);
      double at = run.x + 30 + Pencil.LINE;
      pencil.text(Mark.Ink.ROLE, at, run.middle() - 28, "input");
      Inscription input = words.part(Slot.INPUT, named(Slot.INPUT));
      value(at, run.middle() - 12, input);
      close(Slot.INPUT, run);
      dots(run);
      run.x += 30;
      hot(run, run.x);
      pencil.capacitorUpright(run.x, run.middle(), run.rail, run.cold);
      Inscription capacitance = words.part(Slot.INPUT_CAPACITANCE, named(Slot.INPUT_CAPACITANCE));
      value(at, run.middle() + 20, capacitance);
      pencil.text(Mark.Ink.GUESS, at, run.middle() + 36, capacitance.note());
      close(Slot.INPUT_CAPACITANCE, run);
      dots(run);
      run.x += COLUMN;
    } else {
      column(run, Slot.INPUT, "input");
      column(run, Slot.INPUT_CAPACITANCE, "input");
    }
  }

  private void column(Run run, Slot slot, String role) {
    if (layout.part(slot).isEmpty()) {
      return;
    }
    hot(run, run.x);
    if (slot.quantity().unit() == org.trebleproof.quantity.Unit.OHM) {
      pencil.resistorUpright(run.x, run.middle(), 22, run.rail, run.cold);
    } else {
      pencil.capacitorUpright(run.x, run.middle(), run.rail, run.cold);
    }
    label(run.x + Pencil.LINE, run.middle() - 12, role, slot);
    close(slot, run);
    dots(run);
    run.x += COLUMN;
  }

  private void label(double x, double y, String role, Slot slot) {
    String name = named(slot);
    boolean own = !name.startsWith(slot.noun()) && !OwnName.is(name);
    pencil.label(x, y, role, words.part(slot, name), own ? name : "");
  }

  /** How much higher a label begins whose value takes two lines, so as not to reach the ground. */
  private double below(Slot slot) {
    return Pencil.folds(words.part(slot, named(slot)).value()) ? Pencil.LINE : 0;
  }

  private void value(double x, double y, Inscription inscription) {
    pencil.text(inscription.guess() ? Mark.Ink.GUESS : Mark.Ink.VALUE, x, y, inscription.value());
  }

  private static String word(Slot slot) {
    return slot == Slot.VOLUME || slot == Slot.SECOND_VOLUME ? "volume" : "tone";
  }

  private String turned(Slot pot) {
    double rotation = layout.turned(pot).rotation();
    return rotation >= 1
        ? "full up"
        : rotation <= 0 ? "off" : "at " + Math.round(100 * rotation) + " %";
  }

  private String named(Slot slot) {
    return layout.part(slot).orElse("");
  }

  private void close(Slot slot, Run run) {
    boolean changed =
        other.isPresent()
            && (!other.get().part(slot).equals(layout.part(slot))
                || slot.turns() && !other.get().turned(slot).equals(layout.turned(slot)));
    close(Item.Kind.PART, Optional.of(slot), named(slot), run, changed);
  }

  private void close(Item.Kind kind, Optional<Slot> slot, String name, Run run, boolean changed) {
    Item.State state =
        run.state == Item.State.OFF ? run.state : changed ? Item.State.CHANGED : Item.State.PLAIN;
    pencil.close(kind, slot, name, state);
  }

  /** Draws the hot rail up to here. */
  private void hot(Run run, double to) {
    if (to > run.hotTo) {
      pencil.wire(run.state, run.hotTo, run.rail, to, run.rail);
      run.hotTo = to;
    }
  }

  private void cold(Run run, boolean grounded) {
    pencil.wire(run.state, run.coldFrom, run.cold, run.coldTo, run.cold);
    if (grounded) {
      pencil.ground(run.state, run.coldFrom, run.cold);
    }
  }

  private void dots(Run run) {
    pencil.dot(run.state, run.x, run.rail);
    pencil.dot(run.state, run.x, run.cold);
    run.coldTo = Math.max(run.coldTo, run.x);
  }

  /** The drawing in words. */
  private String reading(List<Integer> sounding) {
    List<String> on = sounding.stream().map(layout.pickups()::get).toList();
    StringBuilder text = new StringBuilder();
    if (on.size() == 1) {
      text.append("The coil ").append(on.get(0)).append(" feeds ");
    } else {
      text.append("The coils ").append(String.join(" and ", on));
      text.append(layout.joint() == Harness.Joint.SERIES ? " in series" : " in parallel");
      text.append(layout.secondOutput() < 0 ? ", out of phase, feed " : " feed ");
    }
    List<String> parts = new ArrayList<>();
    for (Slot slot : Slot.values()) {
      layout
          .part(slot)
          .ifPresent(
              name ->
                  parts.add(
                      OwnName.is(name) || name.startsWith(slot.noun())
                          ? "the " + (OwnName.is(name) ? slot.noun() : name)
                          : "the " + slot.noun() + " " + name));
    }
    if (layout.tapped()) {
      parts.add("a tap between the halves of " + layout.pickups().get(0));
    }
    return text.append(parts.isEmpty() ? "the jack" : String.join(", ", parts))
        .append(".")
        .toString();
  }
}
