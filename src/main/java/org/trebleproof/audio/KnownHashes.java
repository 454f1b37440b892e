package org.trebleproof.audio;

import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.file.FileState;

/**
 * SHA-256 of files that were read a moment ago: a recording is asked for its hash by whoever
 * measures it and by whoever keeps it. Only files that nothing has touched since are known.
 */
final class KnownHashes {

  /** So many are under way at once at most, with room to spare. */
  private static final int MOST = 1024;

  private final Map<FileState, String> known =
      new LinkedHashMap<>() {
        @Override
        protected boolean removeEldestEntry(Map.Entry<FileState, String> eldest) {
          return size() > MOST;
        }
      };

  /** The hash of a file as it is now; empty where it has to be read. */
  synchronized Optional<String> of(Path file) {
    return FileState.of(file).map(known::get);
  }

  /**
   * Learns a hash.
   *
   * @param before state of the file before it was read for it
   * @param now by the clock, before it was read
   */
  synchronized void learn(Path file, Optional<FileState> before, FileTime now, String sha256) {
    if (before.isPresent() && before.get().isSettled(now) && before.equals(FileState.of(file))) {
      known.put(before.get(), sha256);
    }
  }
}
