package org.trebleproof.shelf.evening;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobReader;
import org.trebleproof.shelf.folder.CoilFolders;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfStore;

/** A measurement worked out again by this version, from the recordings that are kept. */
public final class Refit {

  private Refit() {}

  /** Works it out; what was said before stays on the shelf beneath it. */
  public static CoilAnswer of(ShelfStore store, ShelvedCoil coil, CoilWork work) {
    Path folder = null;
    try {
      folder = Files.createTempDirectory("trebleproof-shelf");
      Path own = folder.resolve("coil");
      CoilFolders.writeOne(store, coil, own);
      Job job = JobReader.read(own.resolve("job.json"));
      CoilAnswer answer = work.of(job, coil.circumstances().celsius());
      store.again(coil.measurement(), answer);
      return answer;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      if (folder != null) {
        remove(folder);
      }
    }
  }

  static void remove(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
        Files.deleteIfExists(file);
      }
    } catch (IOException e) {
      return; // the system clears its folder for temporary files by itself
    }
  }
}
