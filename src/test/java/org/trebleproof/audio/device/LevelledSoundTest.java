package org.trebleproof.audio.device;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/** A sound that is turned while it plays. */
class LevelledSoundTest {

  @Test
  void beginsInSilenceAndFollowsWithoutAJump() {
    double[] level = {-20};
    PlayedSound ones =
        (block, frames) -> {
          Arrays.fill(block[0], 0, frames, 1f);
          return frames;
        };
    LevelledSound turned = new LevelledSound(ones, () -> level[0]);
    float[][] block = new float[1][240];
    float last = 0;
    double step = 0;
    for (int i = 0; i < 200; i++) {
      level[0] = i < 100 ? -20 : 0;
      turned.next(block, 240);
      for (float sample : block[0]) {
        step = Math.max(step, Math.abs(sample - last));
        last = sample;
      }
      if (i == 99) {
        assertEquals(0.1, last, 1e-4);
      }
    }
    assertEquals(1, last, 1e-4);
    assertTrue(step < 1e-3, "step " + step);
  }
}
