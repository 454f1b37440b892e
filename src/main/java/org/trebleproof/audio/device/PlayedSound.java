package org.trebleproof.audio.device;

/** Sound that is made or fetched while it plays. */
@FunctionalInterface
public interface PlayedSound {

  /**
   * The next stretch.
   *
   * @param block one array per channel, to be filled
   * @param frames wanted
   * @return frames given; fewer than wanted ends the sound
   */
  int next(float[][] block, int frames);

  /**
   * Sound from memory. One channel goes to all of the device's; of several, each to its own, and
   * channels that the device has beyond them stay silent.
   *
   * @param channels samples, all of one length
   * @param level added to their level [dB]
   */
  static PlayedSound of(float[][] channels, double level) {
    float gain = (float) Math.pow(10, level / 20);
    int length = channels[0].length;
    return new PlayedSound() {
      private int at;

      @Override
      public int next(float[][] block, int frames) {
        int count = Math.min(frames, length - at);
        for (int c = 0; c < block.length; c++) {
          boolean silent = channels.length > 1 && c >= channels.length;
          float[] from = channels[channels.length == 1 || silent ? 0 : c];
          for (int i = 0; i < count; i++) {
            block[c][i] = silent ? 0 : gain * from[at + i];
          }
        }
        at += count;
        return count;
      }
    };
  }

  /** Silence that never ends: for listening only. */
  static PlayedSound silence() {
    return (block, frames) -> {
      for (float[] channel : block) {
        java.util.Arrays.fill(channel, 0, frames, 0f);
      }
      return frames;
    };
  }
}
