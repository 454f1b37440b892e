package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.circuit.Harness.Branch;
import org.trebleproof.circuit.Harness.Controls;
import org.trebleproof.circuit.Harness.Joint;
import org.trebleproof.circuit.Harness.Output;
import org.trebleproof.circuit.Harness.Source;
import org.trebleproof.circuit.Harness.Tap;
import org.trebleproof.circuit.Harness.TrebleBleed;

class HarnessTest {
  private static final double[] HZ = ExampleCircuits.logGrid(20, 20_000, 61);

  private static double[] levels(Harness harness) {
    Circuit circuit = harness.circuit();
    Analysis a = circuit.evaluate(HZ, ExampleCircuits.typicalValues(circuit), Probe.EMF_TO_JACK);
    double[] level = new double[HZ.length];
    for (int k = 0; k < HZ.length; k++) {
      level[k] = 20 * Math.log10(Math.hypot(a.re()[k], a.im()[k]));
    }
    return level;
  }

  private static Harness harness(Joint joint, Controls master, Branch... branches) {
    return new Harness(List.of(branches), joint, master, ExampleHarnesses.PLUGGED);
  }

  private static Branch like(String name, double output) {
    return new Branch(
        List.of(new Source(name, CoilModel.LOSS_RESISTOR, output)),
        Optional.empty(),
        Controls.NONE);
  }

  @Test
  void onePickupIsTheSameCircuitAsTheGuitarWithOnePickup() {
    for (CoilModel coil : CoilModel.all()) {
      GuitarWiring wiring =
          GuitarWiring.bare()
              .withVolume("volume", 0.3)
              .withTone("tonePot", 0.8, "toneCap", true)
              .withCable("cable")
              .withInput("inputR", "inputC");
      Harness same =
          new Harness(
              List.of(Branch.of("pickup", coil, Controls.NONE)),
              Joint.PARALLEL,
              ExampleHarnesses.controls("", 0.3, null, true, false),
              ExampleHarnesses.PLUGGED);
      Circuit a = wiring.circuit(coil, "pickup");
      Circuit b = same.circuit();
      double[] va = ExampleCircuits.typicalValues(a);
      double[] vb = ExampleCircuits.typicalValues(b);
      // Rounding only: the same sums in another order.
      assertArrayEquals(
          a.evaluate(HZ, va, Probe.EMF_TO_JACK).re(),
          b.evaluate(HZ, vb, Probe.EMF_TO_JACK).re(),
          1e-11,
          coil.label());
    }
  }

  /**
   * Two like sources in parallel are one of half the impedance; in series one of twice (theory).
   */
  @Test
  void likePickupsInParallelGiveTheLevelOfOneAndInSeriesOfTwo() {
    Output bridging = new Output(Optional.empty(), Optional.of("inputR"), Optional.empty());
    double one =
        levels(new Harness(List.of(like("a", 1)), Joint.PARALLEL, Controls.NONE, bridging))[0];
    List<Branch> two = List.of(like("a", 1), like("b", 1));
    double parallel = levels(new Harness(two, Joint.PARALLEL, Controls.NONE, bridging))[0];
    double series = levels(new Harness(two, Joint.SERIES, Controls.NONE, bridging))[0];
    // At 20 Hz a winding of 4.4 kohm into 1 Mohm: 20 lg (1 + 4.4k/1M) = 0.038 dB.
    assertEquals(-0.0381, one, 1e-3);
    assertEquals(-0.0191, parallel, 1e-3);
    assertEquals(20 * Math.log10(2) - 0.0761, series, 1e-3);
  }

  @Test
  void likePickupsOutOfPhaseCancelAndUnlikeOnesLeaveTheirDifference() {
    double[] cancelled =
        levels(harness(Joint.PARALLEL, Controls.NONE, like("a", 1), like("b", -1)));
    assertTrue(Arrays.stream(cancelled).max().orElseThrow() < -200, "nothing is left");
    double[] both = levels(harness(Joint.SERIES, Controls.NONE, like("a", 1), like("b", 1)));
    double[] left = levels(harness(Joint.SERIES, Controls.NONE, like("a", 1), like("b", -0.5)));
    for (int k = 0; k < HZ.length; k++) {
      assertEquals(both[k] + 20 * Math.log10(0.5 / 2), left[k], 1e-9);
    }
  }

  @Test
  void aTrebleBleedDoesNothingWithTheVolumeFullUp() {
    TrebleBleed bleed = new TrebleBleed("bleedCap", Optional.of("bleedR"), false);
    double[] without =
        levels(
            harness(
                Joint.PARALLEL,
                ExampleHarnesses.controls("", 1, null, false, false),
                like("a", 1)));
    double[] with =
        levels(
            harness(
                Joint.PARALLEL,
                ExampleHarnesses.controls("", 1, bleed, false, false),
                like("a", 1)));
    assertArrayEquals(without, with, 0);
  }

  @Test
  void aTrebleBleedKeepsTheTrebleOfALowVolume() {
    TrebleBleed bleed = new TrebleBleed("bleedCap", Optional.empty(), false);
    Controls plain = ExampleHarnesses.controls("", 0.1, null, false, false);
    Controls bled = ExampleHarnesses.controls("", 0.1, bleed, false, false);
    double[] without = levels(harness(Joint.PARALLEL, plain, like("a", 1)));
    double[] with = levels(harness(Joint.PARALLEL, bled, like("a", 1)));
    int at3k = 0;
    while (HZ[at3k] < 3000) {
      at3k++;
    }
    assertTrue(with[at3k] > without[at3k] + 6, "the treble stays");
    assertEquals(without[0], with[0], 0.1, "the bass does not");
  }

  /** Open circuit a tap by a wire leaves the upper of two like coils: half the voltage. */
  @Test
  void aTapHalvesTwoLikeCoilsAndAResistorStandsBetween() {
    List<Source> halves =
        List.of(
            new Source("south", CoilModel.LOSS_RESISTOR, 0.5),
            new Source("north", CoilModel.LOSS_RESISTOR, 0.5));
    Branch whole = new Branch(halves, Optional.empty(), Controls.NONE);
    Branch tapped = new Branch(halves, Optional.of(new Tap(Optional.empty())), Controls.NONE);
    Branch partly = new Branch(halves, Optional.of(new Tap(Optional.of("tapR"))), Controls.NONE);
    double full = levels(harness(Joint.PARALLEL, Controls.NONE, whole))[0];
    double half = levels(harness(Joint.PARALLEL, Controls.NONE, tapped))[0];
    double part = levels(harness(Joint.PARALLEL, Controls.NONE, partly))[0];
    assertEquals(full - 6.02, half, 0.05);
    assertTrue(part > half + 1 && part < full - 1, "part tap " + part);
  }

  @Test
  void oneIndependentVolumeAtNearlyZeroLeavesTheOtherPickup() {
    double[] levels = new double[2];
    for (boolean independent : new boolean[] {false, true}) {
      Harness two =
          new Harness(
              List.of(
                  Branch.of(
                      "neck",
                      CoilModel.LOSS_RESISTOR,
                      ExampleHarnesses.controls("neck.", 1, null, false, independent)),
                  Branch.of(
                      "bridge",
                      CoilModel.LOSS_RESISTOR,
                      ExampleHarnesses.controls("bridge.", 1e-6, null, false, independent))),
              Joint.PARALLEL,
              Controls.NONE,
              ExampleHarnesses.PLUGGED);
      levels[independent ? 1 : 0] = levels(two)[0];
    }
    assertTrue(levels[0] < -60, "hot touched to ground is silence: " + levels[0]);
    assertTrue(levels[1] > -1, "the other pickup plays on: " + levels[1]);
  }

  @Test
  void refusesWhatCannotBeWired() {
    assertThrows(
        IllegalArgumentException.class,
        () -> new Harness(List.of(), Joint.PARALLEL, Controls.NONE, Output.NONE));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            new Branch(
                List.of(new Source("a", CoilModel.IDEAL, 1)),
                Optional.of(new Tap(Optional.empty())),
                Controls.NONE));
    assertThrows(
        IllegalArgumentException.class, () -> new Source("a", CoilModel.IDEAL, Double.NaN));
    assertThrows(
        IllegalArgumentException.class,
        () ->
            new Controls(
                Optional.empty(),
                Optional.empty(),
                Optional.of(new TrebleBleed("c", Optional.empty(), false)),
                Optional.empty(),
                false,
                false));
  }
}
