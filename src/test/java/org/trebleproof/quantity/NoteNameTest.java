package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

/** Standard tuning by equal temperament, A4 = 440 Hz (ISO 16:1975): E2 A2 D3 G3 B3 E4. */
class NoteNameTest {

  @Test
  void openStringsOfAGuitar() {
    double[] open = {82.4069, 110, 146.8324, 195.9977, 246.9417, 329.6276};
    String[] names = {"E2", "A2", "D3", "G3", "B3", "E4"};
    for (int i = 0; i < open.length; i++) {
      assertEquals(names[i], NoteName.of(open[i]));
      assertEquals("0 cent", NoteName.cent(open[i]));
    }
    assertEquals("E♭2", NoteName.of(77.7817));
    assertEquals("B1", NoteName.of(61.7354), "a seventh string");
  }

  @Test
  void offByLess() {
    assertEquals("+12 cent", NoteName.cent(110 * Math.pow(2, 12 / 1200.0)));
    assertEquals("−3 cent", NoteName.cent(110 * Math.pow(2, -3 / 1200.0)));
    assertEquals("0 cent", NoteName.cent(110 * Math.pow(2, -0.2 / 1200.0)));
  }
}
