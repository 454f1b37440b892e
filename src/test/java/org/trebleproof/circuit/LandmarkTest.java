package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.Random;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

/** Gradients of the landmarks against differences, over random guitars of every model. */
class LandmarkTest {
  private static final long SEED = 7;
  private static final double STEP = 2e-4;

  @Test
  void gradientsAgreeWithDifferences() {
    Random random = new Random(SEED);
    int peaks = 0;
    for (CoilModel coil : CoilModel.all()) {
      for (String wiring : new String[] {"bare", "full-up", "tone-after"}) {
        Circuit circuit = ExampleCircuits.wirings().get(wiring).circuit(coil, "pickup");
        double[] values = ExampleCircuits.randomValues(circuit, random);
        Optional<Landmark> peak = Landmark.peak(circuit, values);
        if (peak.isPresent() && peak.get().level() > 0.5) {
          peaks++;
          compare(peak.get(), values, v -> Landmark.peak(circuit, v).orElseThrow());
        }
        compare(
            Landmark.fall(circuit, values, -3).orElseThrow(),
            values,
            v -> Landmark.fall(circuit, v, -3).orElseThrow());
      }
    }
    assertTrue(peaks > 15, "too few peaks to mean anything: " + peaks);
  }

  private static void compare(Landmark exact, double[] values, Function<double[], Landmark> find) {
    // Fourth-order central difference.
    double[] weights = {2 / 3.0, -1 / 12.0};
    for (int slot = 0; slot < values.length; slot++) {
      double place = 0;
      double height = 0;
      for (int i = 1; i <= weights.length; i++) {
        double[] moved = values.clone();
        moved[slot] = values[slot] * Math.exp(i * STEP);
        Landmark up = find.apply(moved);
        moved[slot] = values[slot] * Math.exp(-i * STEP);
        Landmark down = find.apply(moved);
        place += weights[i - 1] * Math.log(up.hz() / down.hz()) / STEP;
        height += weights[i - 1] * (up.level() - down.level()) / STEP;
      }
      check(place, exact.lnHzGradient()[slot]);
      check(height, exact.levelGradient()[slot]);
    }
  }

  /** Relative 1e-7: what a difference of this order and step leaves on a steep gradient. */
  private static void check(double difference, double exact) {
    assertEquals(difference, exact, 1e-7 * Math.max(1, Math.abs(exact)), "seed " + SEED);
  }
}
