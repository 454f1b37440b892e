package org.trebleproof.bench.job;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.trebleproof.file.WholeFile;
import org.trebleproof.json.ArrayEntry;
import org.trebleproof.json.JsonWriter;

/**
 * Adds a capture to a job file as a person would with an editor: one entry more at the end of its
 * captures, every other character as it was. The file is replaced in one stroke.
 */
public final class CaptureAddition {

  private CaptureAddition() {}

  /**
   * Adds a capture.
   *
   * @param job the job file, which has been read without complaint
   * @param id of the capture; the job has none of that name
   * @param sound name of the sound file, as seen from the job's folder
   * @param setup name of a setup of the job
   * @param across parts clipped across the jack
   * @throws JobFileException if the file cannot be changed
   */
  public static void add(Path job, String id, String sound, String setup, List<String> across) {
    try {
      String text = Files.readString(job);
      WholeFile.writeText(job, ArrayEntry.added(text, "captures", entry(id, sound, setup, across)));
    } catch (IOException e) {
      throw new JobFileException(
          job.getFileName()
              + ": could not be read again to add a capture: check that it is there.");
    }
  }

  private static String entry(String id, String sound, String setup, List<String> across) {
    return JsonWriter.line(
        json -> {
          json.object();
          json.text("id", id);
          json.text("file", sound);
          json.text("setup", setup);
          if (!across.isEmpty()) {
            json.texts("across", across);
          }
          json.end();
        });
  }
}
