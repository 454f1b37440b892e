package org.trebleproof.bench.live;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.audio.Recording;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.SoundFileException;
import org.trebleproof.quantity.Refusal;

/**
 * Where a recording stands while it is made, and what is left of one that was cut short.
 *
 * @param file the unfinished file
 * @param target where it goes once it is whole
 */
public record UnfinishedRecording(Path file, Path target) {

  private static final String MARK = ".unfinished.wav";

  /** The place beside a recording to come. */
  public static UnfinishedRecording of(Path target) {
    return new UnfinishedRecording(target.resolveSibling(stem(target) + MARK), target);
  }

  private static String stem(Path target) {
    String name = target.getFileName().toString();
    int dot = name.lastIndexOf('.');
    return dot > 0 ? name.substring(0, dot) : name;
  }

  /**
   * What an earlier run left.
   *
   * @param file where it was put aside
   * @param seconds of sound in it
   */
  public record Saved(Path file, double seconds) {

    /** What the person is told of it. */
    String sentence() {
      return String.format(
          Locale.ROOT,
          "An earlier recording was cut short; its %.1f s are kept in %s (take them into the job"
              + " with --use).",
          seconds,
          file);
    }
  }

  /** What is said of a recording that is cut short now. */
  String kept(double seconds) {
    return String.format(
        Locale.ROOT, "What was recorded until then, %.1f s, is in %s.", seconds, file);
  }

  /**
   * Puts aside what an earlier run left, if anything; a file without sound is deleted.
   *
   * @throws Refusal if the folder cannot be written to
   */
  public Optional<Saved> putAside() {
    if (!Files.exists(file)) {
      return Optional.empty();
    }
    try {
      double seconds = seconds();
      if (seconds == 0) {
        Files.delete(file);
        return Optional.empty();
      }
      Path kept = free(".saved-", ".wav");
      Files.move(file, kept);
      return Optional.of(new Saved(kept, seconds));
    } catch (IOException e) {
      throw new Refusal(
          file + " cannot be moved out of the way: move or delete it, then start again.", e);
    }
  }

  private double seconds() {
    try {
      Recording recording = SoundFile.read(file);
      return recording.seconds();
    } catch (SoundFileException e) {
      return 0; // a header and nothing behind it
    }
  }

  /** Makes the recording the target; a file there is kept beside it under another name. */
  void finish() {
    try {
      keepFormer();
      Files.move(file, target, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      throw new Refusal(
          "The recording is in " + file + ", but could not be moved to " + target + ".", e);
    }
  }

  /** Moves what stands in the target's place beside it: a recording is never replaced. */
  void keepFormer() throws IOException {
    if (Files.exists(target)) {
      Files.move(target, free(".old-", ending(target)));
    }
  }

  /** Deletes a recording that is to be repeated. */
  void drop() {
    try {
      Files.deleteIfExists(file);
    } catch (IOException e) {
      throw new Refusal(file + " cannot be deleted: delete it, then start again.", e);
    }
  }

  private Path free(String mark, String ending) {
    for (int k = 1; ; k++) {
      Path path = target.resolveSibling(stem(target) + mark + k + ending);
      if (!Files.exists(path)) {
        return path;
      }
    }
  }

  private static String ending(Path file) {
    return file.getFileName().toString().substring(stem(file).length());
  }
}
