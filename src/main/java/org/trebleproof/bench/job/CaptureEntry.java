package org.trebleproof.bench.job;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.trebleproof.quantity.Temperature;

/**
 * One recording of a job.
 *
 * @param id its name in the job
 * @param file the sound file, resolved against the job's folder
 * @param setup name of the setup that was recorded
 * @param across names of parts clipped across the jack for this capture
 * @param temperature of the room for this capture, where it was read; else the setup's counts
 */
public record CaptureEntry(
    String id, Path file, String setup, List<String> across, Optional<Temperature> temperature) {

  /** A recording beside which no temperature was read. */
  public CaptureEntry(String id, Path file, String setup, List<String> across) {
    this(id, file, setup, across, Optional.empty());
  }

  public CaptureEntry {
    across = List.copyOf(across);
  }
}
