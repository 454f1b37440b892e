package org.trebleproof.bench;

import java.nio.file.Path;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.signal.sweep.ExponentialSweep;

/**
 * A sound file to play into the fixture: exponential sweeps with silence around each.
 *
 * @param sampleRate whole hertz
 * @param encoding how a sample is stored
 * @param seconds length of one sweep [s]
 * @param startHz lowest frequency [Hz]
 * @param endHz highest frequency, at most half the sample rate [Hz]
 * @param repeats number of sweeps; two or more let their scatter be seen
 * @param gap silence before, between and after the sweeps [s]
 * @param level peak level re full scale [dB]
 * @param synchronised whether the sweep starts in step with its harmonics
 */
public record Stimulus(
    int sampleRate,
    WavWriter.Encoding encoding,
    double seconds,
    double startHz,
    double endHz,
    int repeats,
    double gap,
    double level,
    boolean synchronised) {

  private static final double LONGEST = 600;
  private static final double LEAST_GAP = 0.2;

  /** One plain sweep at full scale, as 24 bits, with as much silence around it as is needed. */
  public static Stimulus sweep(int sampleRate, double startHz, double endHz, double seconds) {
    return new Stimulus(
        sampleRate, WavWriter.Encoding.PCM24, seconds, startHz, endHz, 1, LEAST_GAP, 0, false);
  }

  public Stimulus {
    check(sampleRate >= 8000 && sampleRate <= 384000, "rate", "8000 to 384000 Hz");
    check(seconds >= 0.5 && seconds <= 60, "length of a sweep", "0.5 to 60 s");
    check(
        startHz >= 1 && startHz < endHz, "lowest frequency", "1 Hz or more and below the highest");
    check(endHz <= 0.5 * sampleRate, "highest frequency", "at most half the sample rate");
    check(repeats >= 1 && repeats <= 64, "number of sweeps", "1 to 64");
    check(gap >= LEAST_GAP && gap <= 30, "gap", "0.2 to 30 s");
    check(level >= -80 && level <= 0, "level", "-80 to 0 dB re full scale");
    check(
        (repeats + 1) * gap + repeats * seconds <= LONGEST,
        "whole length",
        "at most 600 s; make fewer or shorter sweeps");
  }

  private static void check(boolean holds, String what, String range) {
    if (!holds) {
      throw new Refusal("The " + what + " must be " + range + ".");
    }
  }

  /** Length of the file [s]. */
  public double length() {
    return gap + repeats * (sweep().seconds() + gap);
  }

  /**
   * Writes the file, whole or not at all.
   *
   * @throws Refusal if it cannot be written
   */
  public void write(Path file) {
    WavWriter.write(file, new float[][] {samples()}, sampleRate, encoding);
  }

  /** The whole sound at its level. */
  public float[] samples() {
    return sweep().stimulus(repeats, Math.pow(10, level / 20), gap, gap, 0);
  }

  /** From the start of one sweep to that of the next [s]. */
  public double period() {
    ExponentialSweep sweep = sweep();
    return (sweep.samples().length + Math.round(gap * sampleRate)) / (double) sampleRate;
  }

  /** The same sound at another level [dB re full scale]. */
  public Stimulus at(double otherLevel) {
    return new Stimulus(
        sampleRate, encoding, seconds, startHz, endHz, repeats, gap, otherLevel, synchronised);
  }

  /** The sweep so often, with this much silence around each [s]. */
  public Stimulus withRepeats(int number, double silence) {
    return new Stimulus(
        sampleRate, encoding, seconds, startHz, endHz, number, silence, level, synchronised);
  }

  /** The same sound, its samples stored otherwise. */
  public Stimulus withEncoding(WavWriter.Encoding other) {
    return new Stimulus(
        sampleRate, other, seconds, startHz, endHz, repeats, gap, level, synchronised);
  }

  /** The same sound, its sweep in step with its harmonics or not. */
  public Stimulus withSynchronised(boolean inStep) {
    return new Stimulus(sampleRate, encoding, seconds, startHz, endHz, repeats, gap, level, inStep);
  }

  /** One sweep. */
  public ExponentialSweep sweep() {
    return synchronised
        ? ExponentialSweep.synchronised(startHz, endHz, seconds, sampleRate)
        : ExponentialSweep.plain(startHz, endHz, seconds, sampleRate);
  }
}
