package org.trebleproof.bench.job;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.trebleproof.quantity.Temperature;

/**
 * One recording of a job.
 *
 * @param id its name in the job
 * @param file the sound file, resolved against the job's folder
 * @param setup name of the setup that was recorded
 * @param across names of parts clipped across the jack for this capture
 * @param temperature of the room for this capture, where it was read; else the setup's counts
 * @param handling what went otherwise with this recording than with the others
 */
public record CaptureEntry(
    String id,
    Path file,
    String setup,
    List<String> across,
    Optional<Temperature> temperature,
    Handling handling) {

  /**
   * What went otherwise with one recording.
   *
   * @param sampleRate at which it was really recorded, where the file says another [Hz]
   * @param otherGain whether the recorder's gain was turned for it, so that its level says nothing
   * @param swapped whether its two channels are exchanged
   */
  public record Handling(OptionalDouble sampleRate, boolean otherGain, boolean swapped) {

    /** Nothing. */
    public static final Handling USUAL = new Handling(OptionalDouble.empty(), false, false);

    /** The same, recorded at this rate. */
    public Handling at(double rate) {
      return new Handling(OptionalDouble.of(rate), otherGain, swapped);
    }

    /** The same at a gain of its own. */
    public Handling atOtherGain() {
      return new Handling(sampleRate, true, swapped);
    }

    /** The same with its channels taken the other way round. */
    public Handling turned() {
      return new Handling(sampleRate, otherGain, !swapped);
    }
  }

  /** A recording like the others. */
  public CaptureEntry(
      String id, Path file, String setup, List<String> across, Optional<Temperature> temperature) {
    this(id, file, setup, across, temperature, Handling.USUAL);
  }

  /** A recording beside which no temperature was read. */
  public CaptureEntry(String id, Path file, String setup, List<String> across) {
    this(id, file, setup, across, Optional.empty());
  }

  /** The same recording in another file. */
  public CaptureEntry in(Path other) {
    return new CaptureEntry(id, other, setup, across, temperature, handling);
  }

  /** The same recording with these parts clipped across the jack. */
  public CaptureEntry with(List<String> clipped) {
    return new CaptureEntry(id, file, setup, clipped, temperature, handling);
  }

  /** The same recording, handled so. */
  public CaptureEntry with(Handling other) {
    return new CaptureEntry(id, file, setup, across, temperature, other);
  }

  public CaptureEntry {
    across = List.copyOf(across);
  }
}
