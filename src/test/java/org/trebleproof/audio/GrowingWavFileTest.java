package org.trebleproof.audio;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.quantity.Refusal;

final class GrowingWavFileTest {

  @TempDir Path folder;

  private static float[][] ramp(int from, int frames) {
    float[][] block = new float[2][frames];
    for (int i = 0; i < frames; i++) {
      block[0][i] = (from + i) * 0x1p-23f;
      block[1][i] = -(from + i) * 0x1p-23f;
    }
    return block;
  }

  @Test
  void canBeReadAtEveryMoment() {
    Path file = folder.resolve("a.wav");
    try (GrowingWavFile growing = new GrowingWavFile(file, 2, 48000)) {
      for (int at = 0; at < 24000; at += 240) {
        growing.append(ramp(at, 240), 240);
        if (growing.frames() > 0) {
          Recording now = SoundFile.read(file);
          assertEquals(growing.frames(), now.frames());
          // 20 ms are held back at most.
          assertTrue(at + 240 - now.frames() <= 960, at + " " + now.frames());
        }
      }
    }
    Recording whole = SoundFile.read(file);
    assertEquals(24, whole.bits());
    assertEquals(48000, whole.sampleRate());
    assertArrayEquals(ramp(0, 24000)[0], whole.channel(1));
    assertArrayEquals(ramp(0, 24000)[1], whole.channel(2));
  }

  @Test
  void limitsWhatIsBeyondFullScale() {
    Path file = folder.resolve("b.wav");
    try (GrowingWavFile growing = new GrowingWavFile(file, 1, 8000)) {
      growing.append(new float[][] {{2, -2, 0.5f}}, 3);
    }
    float[] read = SoundFile.read(file).channel(1);
    assertEquals(3, read.length, Arrays.toString(read));
    assertEquals(1 - 0x1p-23f, read[0]);
    assertEquals(-1, read[1]);
  }

  @Test
  void overwritesNothing() {
    Path file = folder.resolve("c.wav");
    new GrowingWavFile(file, 1, 8000).close();
    assertThrows(Refusal.class, () -> new GrowingWavFile(file, 1, 8000));
  }
}
