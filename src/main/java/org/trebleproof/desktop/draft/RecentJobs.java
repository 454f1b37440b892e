package org.trebleproof.desktop.draft;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.trebleproof.file.WholeFile;
import org.trebleproof.json.JsonFile;
import org.trebleproof.json.JsonSection;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Refusal;

/** The job files opened or saved last. */
public final class RecentJobs {

  private static final int MOST = 9;
  private static final String JOBS = "jobs";

  private final Path folder;

  /**
   * The list.
   *
   * @param folder where it is kept
   */
  public RecentJobs(Path folder) {
    this.folder = folder;
  }

  /** Those that are still there, the latest first. */
  public List<Path> all() {
    try {
      JsonSection top = JsonFile.read(file(), "list of jobs", Refusal::new);
      return top.texts(JOBS).stream().map(Path::of).filter(Files::isRegularFile).toList();
    } catch (RuntimeException e) {
      // A list that is not there or cannot be read is an empty one: it is a convenience.
      return List.of();
    }
  }

  /** A job that was opened or saved: its title, and when it was written last. */
  public record Entry(Path file, String title, Instant when) {}

  /** Those that can still be read, the latest first. */
  public List<Entry> entries() {
    List<Entry> entries = new ArrayList<>();
    for (Path job : all()) {
      try {
        entries.add(
            new Entry(job, JobDraft.read(job).title(), Files.getLastModifiedTime(job).toInstant()));
      } catch (Refusal | IOException e) {
        continue; // what cannot be read is not offered
      }
    }
    return entries;
  }

  /** Puts a job file first. */
  public void add(Path job) {
    Path whole = job.toAbsolutePath().normalize();
    List<String> jobs = new ArrayList<>(List.of(whole.toString()));
    all().stream()
        .filter(j -> !j.equals(whole))
        .limit(MOST - 1)
        .forEach(j -> jobs.add(j.toString()));
    StateFolder.made(folder);
    WholeFile.writeText(
        file(), JsonWriter.file(json -> json.content(Map.of(JsonFile.VERSION_KEY, 1, JOBS, jobs))));
  }

  private Path file() {
    return folder.resolve("recent.json");
  }
}
