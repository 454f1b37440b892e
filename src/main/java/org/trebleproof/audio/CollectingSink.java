package org.trebleproof.audio;

import java.nio.file.Path;
import java.util.Arrays;

/** Collects a whole sound file. */
final class CollectingSink implements SoundSink {

  private static final int FIRST = 1 << 16;

  private final Path file;
  private float[][] samples = {};
  private int frames;
  private double sampleRate;
  private int bits;
  private boolean floatingPoint;

  CollectingSink(Path file) {
    this.file = file;
  }

  @Override
  public void begin(
      int channels, long announced, double rate, int sampleBits, boolean floatingPointSamples) {
    SampleFormat.checkFits(file, announced, channels);
    samples = new float[channels][announced > 0 ? (int) announced : FIRST];
    sampleRate = rate;
    bits = sampleBits;
    floatingPoint = floatingPointSamples;
  }

  @Override
  public boolean take(float[][] piece, int count) {
    if (frames + count > samples[0].length) {
      SampleFormat.checkFits(file, 2L * samples[0].length, samples.length);
      for (int c = 0; c < samples.length; c++) {
        samples[c] = Arrays.copyOf(samples[c], 2 * samples[c].length);
      }
    }
    for (int c = 0; c < samples.length; c++) {
      System.arraycopy(piece[c], 0, samples[c], frames, count);
    }
    frames += count;
    return true;
  }

  Recording recording() {
    if (samples[0].length > frames) {
      for (int c = 0; c < samples.length; c++) {
        samples[c] = Arrays.copyOf(samples[c], frames);
      }
    }
    return new Recording(file, samples, sampleRate, bits, floatingPoint);
  }
}
