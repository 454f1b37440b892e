package org.trebleproof.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.trebleproof.quantity.Refusal;

/**
 * Every file that one piece of work reads, and every file it writes; the latter are opened here
 * only. An output that is an input is refused, whatever it is called: through links and other
 * spellings, from the moment both are known, and once more before it is written. So is one that
 * would replace what cannot be made again: a recording, a job, a calibration.
 */
public final class FilesInUse {

  private final Set<Path> read = new LinkedHashSet<>();
  private final Map<String, Path> outputs = new LinkedHashMap<>();
  private final Map<String, Irreplaceable> ofOwnKind = new LinkedHashMap<>();

  /**
   * Adds a file that is read, or will be.
   *
   * @throws Refusal if an output would replace it
   */
  public void reads(Path file) {
    read.add(file);
    outputs.forEach((name, output) -> checkInput(name, output, file));
  }

  /** Adds files that are read. */
  public void reads(Collection<Path> files) {
    files.forEach(this::reads);
  }

  /**
   * Adds an output.
   *
   * @param name by which it was asked for, such as an option
   * @throws Refusal if it cannot be written there, or must not
   */
  public void writes(String name, Path file) {
    check(name, file);
    outputs.put(name, file);
  }

  /** The same for an output that may replace a guitar kept earlier. */
  public void keepsGuitar(String name, Path file) {
    ofOwnKind.put(name, Irreplaceable.GUITAR);
    writes(name, file);
  }

  /** The same for a job that is saved, whose former state it may replace. */
  public void savesJob(String name, Path file) {
    ofOwnKind.put(name, Irreplaceable.JOB);
    writes(name, file);
  }

  /** Whether an output was asked for. */
  public boolean isAsked(String name) {
    return outputs.containsKey(name);
  }

  /**
   * Writes an output that was asked for.
   *
   * @throws Refusal if it cannot be written, or must not
   */
  public void write(String name, String text) {
    Path file = outputs.get(name);
    check(name, file);
    WholeFile.writeText(file, text);
  }

  /**
   * Where an output that was asked for goes, for a writer that wants its name.
   *
   * @throws Refusal if it must not be written any more
   */
  public Path place(String name) {
    check(name, outputs.get(name));
    return outputs.get(name);
  }

  /**
   * Refuses a single file that must not be replaced, or cannot be written.
   *
   * @return the file
   */
  public static Path alone(Path file) {
    FilesInUse files = new FilesInUse();
    files.writes("", file);
    return file;
  }

  private void check(String option, Path file) {
    String name = option.isEmpty() ? "" : option + " ";
    Path folder;
    try {
      folder = WholeFile.checkPlace(file);
    } catch (Refusal e) {
      throw new Refusal(name + e.getMessage(), e);
    }
    if (isStream(file)) {
      return;
    }
    if (!Files.isWritable(folder)) {
      throw new Refusal(name + file + ": this user may not write in " + folder + "; name another.");
    }
    read.forEach(input -> checkInput(option, file, input));
    outputs.forEach(
        (other, place) -> {
          if (!other.equals(option) && same(file, place)) {
            throw new Refusal(name + file + " is named twice; give each output its own file");
          }
        });
    Irreplaceable.what(file)
        .filter(what -> what != ofOwnKind.get(option))
        .ifPresent(
            what -> {
              throw new Refusal(
                  name
                      + file
                      + " would replace "
                      + what.words()
                      + ", which cannot be made again; name another file");
            });
  }

  private static void checkInput(String name, Path output, Path input) {
    if (!isStream(output) && same(output, input)) {
      throw new Refusal(
          (name.isEmpty() ? "" : name + " ")
              + output
              + " would replace an input of the job; name another file");
    }
  }

  /** What is no file is added to and never replaced. */
  private static boolean isStream(Path file) {
    return Files.exists(file) && !Files.isRegularFile(file) && !Files.isDirectory(file);
  }

  /** Whether two names are of one file, or would be once it is there. */
  private static boolean same(Path a, Path b) {
    try {
      return !spellings(a).stream().filter(spellings(b)::contains).toList().isEmpty()
          || Files.exists(a) && Files.exists(b) && Files.isSameFile(a, b);
    } catch (IOException e) {
      return false; // what cannot be looked at cannot be replaced either
    }
  }

  /** A place as it is written, where its links lead, and its true name as far as it is there. */
  private static List<Path> spellings(Path file) throws IOException {
    Path landing = WholeFile.landing(file);
    List<Path> all = new ArrayList<>();
    all.add(file.toAbsolutePath().normalize());
    all.add(landing.normalize());
    Optional<Path> folder = Optional.ofNullable(landing.getParent()).filter(Files::isDirectory);
    if (folder.isPresent() && landing.getFileName() != null) {
      all.add(folder.get().toRealPath().resolve(landing.getFileName()).normalize());
    }
    return all;
  }
}
