package org.trebleproof.audio.device;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import org.junit.jupiter.api.Test;

final class LevelMeterTest {

  private final LevelMeter meter = new LevelMeter(1, 1000);

  private LevelMeter.Reading after(float level, int frames) {
    float[] block = new float[frames];
    java.util.Arrays.fill(block, -level);
    meter.hear(new float[][] {block}, frames);
    return meter.read().get(0);
  }

  @Test
  void holdsThePeakForAWhile() {
    assertEquals(-6.02, after(0.5f, 10).held(), 0.01);
    LevelMeter.Reading soon = after(0.05f, 1000);
    assertEquals(-26.02, soon.peak(), 0.01);
    assertEquals(-6.02, soon.held(), 0.01);
    assertEquals(-26.02, after(0.05f, 600).held(), 0.01);
  }

  @Test
  void theClipLatchStays() {
    assertFalse(after(0.99f, 10).clipped());
    assertTrue(after(1, 1).clipped());
    assertTrue(after(0.01f, 9000).clipped());
  }

  @Test
  void silenceHasAFloor() {
    assertEquals(LevelMeter.FLOOR, after(0, 10).peak());
  }
}
