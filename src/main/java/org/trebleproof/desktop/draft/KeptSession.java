package org.trebleproof.desktop.draft;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;

/**
 * Work that a start of the program left behind without saving it to a job file.
 *
 * @param draft as it was
 * @param typed texts that nobody had confirmed, by the name of their field
 * @param edits number of edits since it was opened or saved
 * @param last the latest of them, in words
 * @param when that was
 * @param file where it is kept
 */
public record KeptSession(
    JobDraft draft, Map<String, String> typed, int edits, String last, Instant when, Path file) {

  public KeptSession {
    typed = Map.copyOf(typed);
  }
}
