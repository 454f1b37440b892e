package org.trebleproof.audio.device;

import java.util.Arrays;

/** Keeps what it hears. */
public final class RecordedSound implements BlockListener {
  private float[][] samples = new float[0][0];
  private int length;

  @Override
  public void block(float[][] block, int frames) {
    if (samples.length == 0) {
      samples = new float[block.length][1 << 16];
    }
    for (int c = 0; c < samples.length; c++) {
      if (length + frames > samples[c].length) {
        samples[c] = Arrays.copyOf(samples[c], 2 * samples[c].length);
      }
      System.arraycopy(block[c], 0, samples[c], length, frames);
    }
    length += frames;
  }

  /** All of a channel, counted from 0. */
  public float[] channel(int number) {
    return Arrays.copyOf(samples[number], length);
  }
}
