package org.trebleproof.audio.device;

import java.util.function.DoubleSupplier;

/**
 * A sound whose level may be turned while it plays. It begins in silence and follows a turn within
 * a tenth of a second, without a click.
 */
public final class LevelledSound implements PlayedSound {

  /** Share of the way to the wanted gain that is gone within a stretch. */
  private static final double PACE = 0.15;

  private final PlayedSound sound;
  private final DoubleSupplier level;
  private double gain;

  /**
   * A sound to be turned.
   *
   * @param level added to its own [dB]; asked for on the thread that plays
   */
  public LevelledSound(PlayedSound sound, DoubleSupplier level) {
    this.sound = sound;
    this.level = level;
  }

  @Override
  public int next(float[][] block, int frames) {
    int count = sound.next(block, frames);
    double wanted = gain + PACE * (Math.pow(10, level.getAsDouble() / 20) - gain);
    for (float[] channel : block) {
      for (int i = 0; i < count; i++) {
        channel[i] *= (float) (gain + (wanted - gain) * (i + 1) / count);
      }
    }
    gain = wanted;
    return count;
  }
}
