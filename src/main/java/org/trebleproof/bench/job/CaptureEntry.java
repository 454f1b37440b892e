package org.trebleproof.bench.job;

import java.nio.file.Path;
import java.util.List;

/**
 * One recording of a job.
 *
 * @param id its name in the job
 * @param file the sound file, resolved against the job's folder
 * @param setup name of the setup that was recorded
 * @param across names of parts clipped across the jack for this capture
 */
public record CaptureEntry(String id, Path file, String setup, List<String> across) {
  public CaptureEntry {
    across = List.copyOf(across);
  }
}
