package org.trebleproof.report.words;

import java.time.LocalDate;
import java.time.format.DateTimeFormatter;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.audio.RecordingDate;

/** When something was recorded, in words, and how that is known. */
public final class RecordedWords {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMMM uuuu", Locale.ENGLISH);

  private RecordedWords() {}

  /** Such as {@code 3 November 2026, as the recordings say}; empty where nothing is recorded. */
  public static Optional<String> of(Collection<RecordingDate> dates) {
    if (dates.isEmpty()) {
      return Optional.empty();
    }
    List<LocalDate> days = dates.stream().map(RecordingDate::day).sorted().toList();
    LocalDate first = days.get(0);
    LocalDate last = days.get(days.size() - 1);
    String when =
        first.equals(last) ? DAY.format(first) : DAY.format(first) + " to " + DAY.format(last);
    boolean own = dates.stream().allMatch(RecordingDate::own);
    return Optional.of(
        when
            + (own
                ? ", as the recordings say"
                : ", by the dates of the files (a copy may carry a later one)"));
  }
}
