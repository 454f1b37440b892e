package org.trebleproof.desktop.draft;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.quantity.Refusal;

/**
 * What was dropped on the window, sorted: one job file, or recordings.
 *
 * @param job the job file
 * @param recordings sound files; none when there is a job file
 */
public record Dropped(Optional<Path> job, List<Path> recordings) {

  /** What a job file may end in besides .json, so that it opens by a double click. */
  private static final String JOB = ".trebleproof";

  private static final List<String> SOUND =
      List.of(".wav", ".wave", ".flac", ".aif", ".aiff", ".aifc", ".w64", ".rf64", ".bwf");

  public Dropped {
    recordings = List.copyOf(recordings);
  }

  /**
   * Sorts files and folders. A folder stands for the job file in it, or else for its recordings.
   *
   * @throws Refusal if there is nothing to be used, or more than one job
   */
  public static Dropped of(List<Path> files) {
    List<Path> jobs = new ArrayList<>();
    List<Path> sounds = new ArrayList<>();
    for (Path file : files) {
      if (Files.isDirectory(file)) {
        sort(inFolder(file), jobs, sounds);
      } else {
        sort(List.of(file), jobs, sounds);
      }
    }
    if (jobs.size() > 1) {
      List<Path> named =
          jobs.stream().filter(j -> j.getFileName().toString().equals("job.json")).toList();
      if (named.size() != 1) {
        throw new Refusal(Texts.of("drop.several", jobs.size()));
      }
      jobs = named;
    }
    if (jobs.isEmpty() && sounds.isEmpty()) {
      String name = files.isEmpty() ? "" : String.valueOf(files.get(0).getFileName());
      throw new Refusal(Texts.of("drop.nothing", name));
    }
    return new Dropped(jobs.stream().findFirst(), jobs.isEmpty() ? sounds : List.of());
  }

  /** Whether a file is a recording, by its name. */
  public static boolean isSound(Path file) {
    String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
    return SOUND.stream().anyMatch(name::endsWith);
  }

  private static void sort(List<Path> files, List<Path> jobs, List<Path> sounds) {
    for (Path file : files) {
      String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
      if (name.endsWith(".json") || name.endsWith(JOB)) {
        jobs.add(file);
      } else if (isSound(file)) {
        sounds.add(file);
      }
    }
  }

  private static List<Path> inFolder(Path folder) {
    try (Stream<Path> files = Files.list(folder)) {
      return files.filter(Files::isRegularFile).sorted().toList();
    } catch (IOException e) {
      throw new Refusal(Texts.of("drop.folder", folder.getFileName()), e);
    }
  }
}
