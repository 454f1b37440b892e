package org.trebleproof.audio;

/** Takes a sound file piece by piece, so that a long one need not be held in memory. */
public interface SoundSink {

  /**
   * What is to come.
   *
   * @param channels of the file
   * @param frames samples per channel; 0 where the file does not say
   * @param sampleRate [Hz]
   * @param bits of one sample as recorded
   * @param floatingPoint whether the file holds floating-point samples
   */
  void begin(int channels, long frames, double sampleRate, int bits, boolean floatingPoint);

  /**
   * The next piece.
   *
   * @param samples an array per channel, used again for the piece after
   * @param count samples of each that count
   * @return whether more is wanted
   */
  boolean take(float[][] samples, int count);
}
