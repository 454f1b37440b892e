package org.trebleproof.circuit;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.circuit.Harness.BassCut;
import org.trebleproof.circuit.Harness.Branch;
import org.trebleproof.circuit.Harness.Controls;
import org.trebleproof.circuit.Harness.Joint;
import org.trebleproof.circuit.Harness.Output;
import org.trebleproof.circuit.Harness.Source;
import org.trebleproof.circuit.Harness.Tap;
import org.trebleproof.circuit.Harness.TrebleBleed;

/** Harnesses that the tests of this package share; each takes a coil model. */
final class ExampleHarnesses {
  static final Output PLUGGED =
      new Output(Optional.of("cable"), Optional.of("inputR"), Optional.of("inputC"));

  private ExampleHarnesses() {}

  /** Every harness by name, with this model in every pickup. */
  static Map<String, Harness> of(CoilModel coil) {
    Map<String, Harness> all = new LinkedHashMap<>();
    TrebleBleed plain = new TrebleBleed("bleedCap", Optional.empty(), false);
    TrebleBleed parallel = new TrebleBleed("bleedCap", Optional.of("bleedR"), false);
    TrebleBleed series = new TrebleBleed("bleedCap", Optional.of("bleedR"), true);
    Branch neck = Branch.of("neck", coil, Controls.NONE);
    Branch bridge = Branch.of("bridge", coil, Controls.NONE);
    all.put("bleed-plain", one(neck, controls("", 0.3, plain, false, false)));
    all.put("bleed-parallel", one(neck, controls("", 0.3, parallel, false, false)));
    all.put("bleed-series", one(neck, controls("", 0.4, series, true, false)));
    all.put("bass-cut", one(neck, withBassCut(0.6)));
    all.put("bass-cut-full", one(neck, withBassCut(1)));
    all.put(
        "two-parallel",
        new Harness(
            List.of(neck, bridge), Joint.PARALLEL, controls("", 0.5, null, false, false), PLUGGED));
    all.put(
        "two-series",
        new Harness(
            List.of(neck, bridge), Joint.SERIES, controls("", 1, null, false, false), PLUGGED));
    all.put(
        "two-control-sets",
        new Harness(
            List.of(
                Branch.of("neck", coil, controls("neck.", 0.7, parallel, false, false)),
                Branch.of("bridge", coil, controls("bridge.", 0.4, null, true, false))),
            Joint.PARALLEL,
            Controls.NONE,
            PLUGGED));
    all.put(
        "two-control-sets-independent",
        new Harness(
            List.of(
                Branch.of("neck", coil, controls("neck.", 0.7, null, false, true)),
                Branch.of("bridge", coil, controls("bridge.", 0.2, plain, false, true))),
            Joint.PARALLEL,
            Controls.NONE,
            PLUGGED));
    all.put(
        "two-control-sets-series",
        new Harness(
            List.of(
                Branch.of("neck", coil, controls("neck.", 0.7, null, false, false)),
                Branch.of("bridge", coil, controls("bridge.", 0.6, null, false, false))),
            Joint.SERIES,
            Controls.NONE,
            PLUGGED));
    Branch reversed =
        new Branch(List.of(new Source("bridge", coil, -0.7)), Optional.empty(), Controls.NONE);
    all.put(
        "out-of-phase",
        new Harness(
            List.of(neck, reversed),
            Joint.PARALLEL,
            controls("", 0.8, null, false, false),
            PLUGGED));
    all.put(
        "out-of-phase-series",
        new Harness(
            List.of(neck, reversed), Joint.SERIES, controls("", 1, null, false, false), PLUGGED));
    all.put(
        "selector-position-2",
        new Harness(
            List.of(
                Branch.of("bridge", coil, Controls.NONE),
                Branch.of("middle", coil, toneOnly("middle.", 0.7))),
            Joint.PARALLEL,
            controls("", 1, null, false, false),
            PLUGGED));
    all.put(
        "three-parallel",
        new Harness(
            List.of(neck, Branch.of("middle", coil, Controls.NONE), bridge),
            Joint.PARALLEL,
            controls("", 0.9, null, false, false),
            PLUGGED));
    List<Source> halves = List.of(new Source("south", coil, 0.5), new Source("north", coil, 0.5));
    all.put(
        "tap",
        one(
            new Branch(halves, Optional.of(new Tap(Optional.empty())), Controls.NONE),
            controls("", 1, null, false, false)));
    all.put(
        "tap-by-resistor",
        one(
            new Branch(halves, Optional.of(new Tap(Optional.of("tapR"))), Controls.NONE),
            controls("", 1, null, false, false)));
    if (coil.innerNodes() > 0) {
      Source whole = new Source("neck", coil, 1);
      all.put(
          "inner-tap",
          one(
              new Branch(List.of(whole), Optional.of(new Tap(Optional.empty())), Controls.NONE),
              controls("", 1, null, false, false)));
      all.put(
          "inner-tap-by-resistor",
          one(
              new Branch(List.of(whole), Optional.of(new Tap(Optional.of("tapR"))), Controls.NONE),
              controls("", 0.7, null, false, false)));
    }
    return all;
  }

  private static Harness one(Branch branch, Controls master) {
    return new Harness(List.of(branch), Joint.PARALLEL, master, PLUGGED);
  }

  static Controls controls(
      String owner, double wiper, TrebleBleed bleed, boolean toneAfter, boolean independent) {
    return new Controls(
        Optional.empty(),
        Optional.of(new GuitarWiring.Volume(owner + "volume", wiper)),
        Optional.ofNullable(bleed),
        Optional.of(new GuitarWiring.Tone(owner + "tonePot", 0.8, owner + "toneCap")),
        toneAfter,
        independent);
  }

  private static Controls toneOnly(String owner, double share) {
    return new Controls(
        Optional.empty(),
        Optional.empty(),
        Optional.empty(),
        Optional.of(new GuitarWiring.Tone(owner + "tonePot", share, owner + "toneCap")),
        false,
        false);
  }

  private static Controls withBassCut(double share) {
    Controls plain = controls("", 0.9, null, false, false);
    return new Controls(
        Optional.of(new BassCut("bassCap", Optional.of("bassPot"), share, Optional.empty())),
        plain.volume(),
        plain.bleed(),
        plain.tone(),
        false,
        false);
  }
}
