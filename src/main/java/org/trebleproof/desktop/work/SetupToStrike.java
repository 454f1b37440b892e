package org.trebleproof.desktop.work;

import java.util.List;
import java.util.Optional;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.text.Texts;

/**
 * Which setup of a job of strikes is to be recorded next: strings and circuit can be told apart
 * only by the same notes in two setups.
 */
public final class SetupToStrike {

  private SetupToStrike() {}

  /** The first setup without a recording; after the only one a fresh name; none after two. */
  public static Optional<String> of(JobDraft job) {
    List<String> setups = job.setups();
    List<String> recorded =
        job.captures().stream().map(JobDraft.CaptureLine::setup).distinct().toList();
    Optional<String> waiting = setups.stream().filter(s -> !recorded.contains(s)).findFirst();
    if (waiting.isPresent() || setups.size() != 1) {
      return waiting;
    }
    return Optional.of(freshName(setups));
  }

  /** Whether all that is recorded is one setup as it is, with nothing clipped on. */
  static boolean oneTakeOnly(JobDraft job) {
    return job.captures().stream().map(JobDraft.CaptureLine::setup).distinct().count() == 1
        && job.captures().stream().allMatch(c -> c.across().isEmpty());
  }

  /** A name for one more setup: before, after, after 2. */
  public static String freshName(List<String> taken) {
    String name =
        taken.contains(Texts.of("setups.before"))
            ? Texts.of("setups.after")
            : Texts.of("setups.before");
    for (int n = 2; taken.contains(name); n++) {
      name = Texts.of("setups.after") + " " + n;
    }
    return name;
  }
}
