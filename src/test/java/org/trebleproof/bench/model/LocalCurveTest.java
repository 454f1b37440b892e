package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;

/** A polynomial in the logarithm of frequency is read off exactly, and noise by its own size. */
class LocalCurveTest {

  private static final double[] HZ = ModelCurves.grid(20, 20000, 24);

  private static double cubic(double hz) {
    double u = Math.log(hz / 3000);
    return 2 - 3 * u + 0.7 * u * u + 4 * u * u * u;
  }

  private static double[] filled(double value) {
    double[] all = new double[HZ.length];
    java.util.Arrays.fill(all, value);
    return all;
  }

  @Test
  void aCubicIsReadExactlyBetweenItsPoints() {
    double[] y = java.util.Arrays.stream(HZ).map(LocalCurveTest::cubic).toArray();
    for (double at : new double[] {47, 1234.5, 9876}) {
      LocalCurve read = LocalCurve.at(HZ, y, filled(0.1), at, 0.4, 3);
      assertEquals(cubic(at), read.value(), 1e-9 * Math.abs(cubic(at)));
    }
  }

  @Test
  void aMeanOfEqualPointsHasTheSpreadOfAMean() {
    // 24 points an octave, half an octave each side of a point: 25 points
    LocalCurve read = LocalCurve.at(HZ, filled(5), filled(0.2), HZ[100], 0.501, 0);
    assertEquals(5, read.value(), 1e-12);
    assertEquals(0.2 / Math.sqrt(25), read.sd(), 1e-12);
  }

  @Test
  void theSpreadIsThatOfManyTries() {
    Random random = new Random(77);
    double squares = 0;
    double stated = 0;
    int tries = 2000;
    for (int k = 0; k < tries; k++) {
      double[] y = new double[HZ.length];
      for (int i = 0; i < y.length; i++) {
        y[i] = cubic(HZ[i]) + 0.05 * random.nextGaussian();
      }
      LocalCurve read = LocalCurve.at(HZ, y, filled(0.05), 3100, 0.6, 3);
      squares += Math.pow(read.value() - cubic(3100), 2);
      stated += read.sd() * read.sd();
    }
    // 2000 tries know a variance to 3.2 %; the excess is never below 1, which adds some per cent
    assertEquals(1, stated / squares, 0.2, "seed 77");
  }

  @Test
  void pointsThatScatterMoreThanStatedWidenIt() {
    Random random = new Random(78);
    double[] y = new double[HZ.length];
    for (int i = 0; i < y.length; i++) {
      y[i] = random.nextGaussian();
    }
    LocalCurve honest = LocalCurve.at(HZ, y, filled(1), 3000, 0.6, 2);
    LocalCurve boasted = LocalCurve.at(HZ, y, filled(0.01), 3000, 0.6, 2);
    assertTrue(boasted.sd() > 0.5 * honest.sd(), boasted + " against " + honest);
  }

  @Test
  void tooFewPointsAreRefused() {
    assertThrows(
        IllegalArgumentException.class,
        () -> LocalCurve.at(HZ, filled(1), filled(1), 90000, 0.2, 3));
  }
}
