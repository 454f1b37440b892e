package org.trebleproof.bench.sweep;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.GrowingWavFile;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.quantity.Finding;

/** Ten minutes of a recorder left running, with sweeps in it and all that goes on at a bench. */
class SweepTakeTest {

  private static final int RATE = 8000;
  private static final int MINUTE = 60 * RATE;
  private static final double SECONDS = 3;

  @TempDir Path folder;

  /** A take with sweeps where they are wanted [s]. */
  private Path take(int minutes, double... sweepsAt) {
    SplittableRandom random = new SplittableRandom(14);
    float[][] x = new float[2][minutes * MINUTE];
    for (float[] channel : x) {
      for (int n = 0; n < channel.length; n++) {
        channel[n] = (float) (1e-4 * random.nextGaussian());
      }
    }
    double rate = SECONDS / Math.log(3000 / 20.0);
    for (double at : sweepsAt) {
      for (int i = 0; i < SECONDS * RATE; i++) {
        double v = Math.sin(2 * Math.PI * 20 * rate * Math.expm1(i / (double) RATE / rate));
        x[0][(int) (at * RATE) + i] += (float) (0.1 * v);
        x[1][(int) (at * RATE) + i] += (float) (0.05 * v);
      }
    }
    // A plug half out for twenty seconds, a knock, and a cupboard being moved, all louder.
    for (int i = 0; i < 20 * RATE; i++) {
      x[0][30 * RATE + i] += (float) (0.9 * Math.sin(2 * Math.PI * 50 * i / RATE));
    }
    for (int i = 0; i < RATE / 3; i++) {
      x[0][70 * RATE + i] += (float) (0.9 * Math.exp(-10.0 * i / RATE));
    }
    for (int i = 0; i < 5 * RATE; i++) {
      x[0][80 * RATE + i] += (float) (0.3 * random.nextGaussian());
    }
    Path file = folder.resolve("take.wav");
    try (GrowingWavFile wav = new GrowingWavFile(file, 2, RATE)) {
      wav.append(x, x[0].length);
    }
    return file;
  }

  @Test
  void findsTheSweepsAndHoldsOnlyTheirStretch() {
    Path file = take(10, 200, 205, 300, 305, 310, 315, 500);
    List<Double> heard = new ArrayList<>();
    SweepTake take = SweepTake.read("bare", file, 1, 2, MINUTE, heard::add);
    assertTrue(take.reference().length < MINUTE, "held " + take.reference().length);
    Recording whole = SoundFile.read(file);
    int from = (int) (298.5 * RATE);
    while (whole.channel(1)[from] != take.reference()[0]
        || whole.channel(1)[from + 1] != take.reference()[1]) {
      from++;
    }
    assertEquals(298.5, from / (double) RATE, 0.03);
    assertArrayEquals(
        Arrays.copyOfRange(whole.channel(1), from, from + take.reference().length),
        take.reference());
    assertArrayEquals(
        Arrays.copyOfRange(whole.channel(2), from, from + take.device().length), take.device());
    Finding excerpt = take.excerpt().orElseThrow();
    assertTrue(excerpt.text().contains("of a take of 10:00 the stretch from 4:5"), excerpt.text());
    assertEquals("4 of 7 whole sweeps", excerpt.evidence());
    assertEquals(1, heard.get(heard.size() - 1), 1e-12);
    assertEquals(heard.stream().sorted().toList(), heard);
  }

  @Test
  void takesAShortTakeWhole() {
    Path file = take(2, 100);
    SweepTake take = SweepTake.read("bare", file, 2, 1, 2 * MINUTE, share -> {});
    Recording whole = SoundFile.read(file);
    assertArrayEquals(whole.channel(2), take.reference());
    assertArrayEquals(whole.channel(1), take.device());
    assertTrue(take.excerpt().isEmpty());
  }
}
