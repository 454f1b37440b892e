package org.trebleproof.file;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Function;
import org.trebleproof.quantity.Refusal;

/**
 * A file that a person gave to be read. What comes through a pipe comes once: it is kept aside for
 * the life of the process, so that it can be read as often as a file.
 */
public final class GivenFile {

  /** More than a sound file of 32 bits in its header can hold is not taken from a pipe [bytes]. */
  private static final long LARGEST = 0xffffffffL;

  /** By name, what came through pipes. A pipe is a thing of the process, and so is this. */
  private static final Map<Path, Place> KEPT_ASIDE = new ConcurrentHashMap<>();

  private GivenFile() {}

  /** Where to read it, or why not in words that follow its name. */
  private record Place(Path path, String trouble) {}

  /**
   * Where a file can be read from, as often as wanted: itself, or what came through it.
   *
   * @param refusal makes the exception from words that follow the file's name
   * @throws Refusal if it cannot be read, with the true reason
   */
  public static Path readable(Path file, Function<String, ? extends Refusal> refusal) {
    Optional<String> trouble = FileTrouble.reading(file);
    if (trouble.isPresent()) {
      throw refusal.apply(trouble.get());
    }
    if (Files.isRegularFile(file)) {
      return file;
    }
    Path name = file.toAbsolutePath().normalize();
    Place place;
    synchronized (KEPT_ASIDE) {
      place = KEPT_ASIDE.computeIfAbsent(name, pipe -> keptAside(file));
    }
    if (place.path() == null) {
      throw refusal.apply(place.trouble());
    }
    return place.path();
  }

  private static Place keptAside(Path file) {
    Path aside = null;
    try {
      if (SpecialFile.of(file) != SpecialFile.PIPE) {
        return new Place(null, "is a device and no file: name the file that is meant.");
      }
      aside = Files.createTempFile("trebleproof-pipe-", ".tmp");
      aside.toFile().deleteOnExit();
      try (InputStream in =
              Patience.within(
                  () -> Files.newInputStream(file), "nothing is written into that pipe");
          OutputStream out = Files.newOutputStream(aside)) {
        byte[] block = new byte[1 << 16];
        long all = 0;
        for (int count = in.read(block); count >= 0; count = in.read(block)) {
          all += count;
          if (all > LARGEST) {
            return new Place(null, "never ends: give a file, or a pipe that holds one.");
          }
          out.write(block, 0, count);
        }
      }
      return new Place(aside, "");
    } catch (IOException e) {
      return new Place(
          null, "could not be read (" + FileTrouble.reason(e) + "): give the file itself.");
    }
  }
}
