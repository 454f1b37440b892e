package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** The lumped ladder against the closed form of the solid cylinder. */
class FosterLadderTest {

  @Test
  void agreesWithTheClosedFormUpToItsLimit() {
    double[] flux = new double[4];
    for (double limit : new double[] {0.1, 3, 50, 800}) {
      FosterLadder ladder = FosterLadder.upTo(limit);
      for (double x : ExampleCircuits.logGrid(limit / 1000, limit, 31)) {
        double re = 0;
        double im = 0;
        for (int n = 0; n < ladder.shares().length; n++) {
          double s = x * ladder.times()[n];
          re += ladder.shares()[n] / (1 + s * s);
          im -= ladder.shares()[n] * s / (1 + s * s);
        }
        SolidCylinder.flux(x, flux);
        assertEquals(0, Math.hypot(re - flux[0], im - flux[1]), 1e-9, limit + " at " + x);
      }
    }
  }
}
