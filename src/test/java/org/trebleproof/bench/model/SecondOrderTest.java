package org.trebleproof.bench.model;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.trebleproof.quantity.Response;

/** What is exactly of second order is found exactly: the fit is linear in what it looks for. */
class SecondOrderTest {

  private static Response exact(double k, double b, double c) {
    double[] hz = ModelCurves.grid(20, 20000, 24);
    double[] re = new double[hz.length];
    double[] im = new double[hz.length];
    double[] sd = new double[hz.length];
    for (int i = 0; i < hz.length; i++) {
      double w = 2 * Math.PI * hz[i];
      Complex h = new Complex(0, k * w).divide(new Complex(1 - w * w * c, w * b));
      re[i] = h.getReal();
      im[i] = h.getImaginary();
      sd[i] = 1e-6;
    }
    return new Response(hz, re, im, sd);
  }

  @Test
  void aLowPassOfSecondOrderIsFoundAgain() {
    // b = L/Rl + R C and c = L C / (1 + R/Rl) of 2.4 H, 5.7 kohm, 620 pF and 97.56 kohm
    double share = 1 + 5700 / 97560.976;
    double b = (2.4 / 97560.976 + 5700 * 620e-12) / share;
    double c = 2.4 * 620e-12 / share;
    SecondOrder found = SecondOrder.nearest(exact(1.3e-4, b, c));
    assertEquals(1.3e-4, found.gain(), 1e-9 * 1.3e-4);
    assertEquals(b, found.damping(), 1e-8 * b);
    assertEquals(c, found.square(), 1e-8 * c);
  }

  @Test
  void tooLittleToGoByIsNoNumber() {
    double[] few = {200, 400};
    Response two = new Response(few, few, few, new double[] {1, 1});
    assertTrue(Double.isNaN(SecondOrder.nearest(two).gain()));
  }
}
