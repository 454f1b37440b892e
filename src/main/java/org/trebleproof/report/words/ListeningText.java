package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.bench.mod.listen.Rendering;

/** What was rendered and heard, for a terminal. */
public final class ListeningText {
  /** Less would be printed as nothing [LU]. */
  private static final double LEAST_PRINTED = 0.05;

  private static final int WIDTH = 98;
  private static final double SIGNIFICANT = 0.05;

  private ListeningText() {}

  /**
   * What there is to hear, and the caution that belongs to it.
   *
   * @param change what the change does, in a sentence
   */
  public static List<String> lines(String change, Rendering r, String folder, TextStyle style) {
    List<String> lines = new ArrayList<>();
    Wrapped.lines(change, WIDTH, "").forEach(l -> lines.add(style.strong(l)));
    lines.addAll(Wrapped.lines(loudness(r), WIDTH, ""));
    lines.addAll(
        Wrapped.lines("Hear " + folder + "/before.wav and " + folder + "/after.wav.", WIDTH, ""));
    if (r.synthetic()) {
      lines.add("The strings are computed, not recorded: give a recording with --strike.");
    }
    Wrapped.lines(
            "Start quiet: both files peak at -20 dB re full scale. This program cannot know how loud"
                + " your loudspeaker is; 85 dB(A) is a day's dose in 8 hours, 100 dB(A) in 15 minutes"
                + " (NIOSH 98-126).",
            WIDTH,
            "  ")
        .forEach(l -> lines.add(style.faint(l)));
    return lines;
  }

  /** What the change does to loudness, and what was done about it. */
  public static String loudness(Rendering r) {
    double change = r.loudnessAfter() - r.loudnessBefore();
    return Math.abs(change) < LEAST_PRINTED
        ? "Loudness stays as it was (ITU-R BS.1770)."
        : String.format(
            Locale.ROOT,
            "Loudness changes by %+.1f LU (ITU-R BS.1770), and both files %s.",
            change,
            r.matched() ? "are matched" : "keep that difference");
  }

  /** The verdict: of the blind test where there was one, else what the change does to loudness. */
  public static String verdict(Rendering r, Optional<BlindTest.Score> score) {
    return score.map(ListeningText::score).orElseGet(() -> loudness(r));
  }

  /** How the sounds came about and what to mind, a sentence each. */
  public static List<String> remarks(Rendering r) {
    return List.of(
        r.synthetic()
            ? "The strings are computed, not recorded."
            : "The sound before is the recording; the sound after is the same recording,"
                + " filtered by what the mod changes (minimum phase).",
        loudness(r),
        "Start quiet: 85 dB(A) is a day's dose in 8 hours, 100 dB(A) in 15 minutes (NIOSH 98-126).");
  }

  /** The verdict of a blind test. */
  public static String score(BlindTest.Score score) {
    return String.format(
        Locale.ROOT,
        "%d of %d right; guessing does as well or better in %.1f %% of tests, so %s.",
        score.right(),
        score.trials(),
        100 * score.chance(),
        score.chance() <= SIGNIFICANT ? "you hear it" : "this test does not show that you hear it");
  }
}
