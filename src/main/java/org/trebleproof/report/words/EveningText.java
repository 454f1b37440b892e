package org.trebleproof.report.words;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.shelf.evening.CoilByCoil;
import org.trebleproof.shelf.evening.EveningListener.Standing;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;

/** One line for each coil of an evening. */
public final class EveningText {

  private static final List<CoilValue> TOLD =
      List.of(
          CoilValue.RESISTANCE_AT_20,
          CoilValue.INDUCTANCE,
          CoilValue.CAPACITANCE,
          CoilValue.RESONANCE,
          CoilValue.PEAK);

  private static final double MINUTE = 60;

  private EveningText() {}

  /** A coil that is on the shelf now. */
  public static String kept(String name, CoilAnswer answer, Standing standing, TextStyle style) {
    boolean good = answer.state() == CoilState.GOOD;
    String said = good ? values(answer) : answer.reason();
    return head(standing)
        + (good ? name + "  " : style.strong(name + "  "))
        + said
        + left(standing, said.endsWith("."));
  }

  /** A coil of an evening at the interface, once it is worked out. */
  public static String workedOut(String name, CoilAnswer answer, TextStyle style) {
    boolean good = answer.state() == CoilState.GOOD;
    return "  "
        + (good ? name + "  " + values(answer) : style.strong(name + "  ") + answer.reason());
  }

  /**
   * What is asked before a coil is recorded.
   *
   * @param next name that is proposed
   * @param before the coil before
   * @param repeat whether it should be recorded once more
   */
  public static String ask(String next, Optional<String> before, boolean repeat) {
    String end = "; q ends.";
    if (before.isPresent() && repeat) {
      return "\""
          + before.get()
          + "\" once more? Enter; n"
          + (next.isEmpty() ? "" : " for \"" + next + "\"")
          + ", or another name"
          + end;
    }
    return (next.isEmpty()
            ? "No coil is left. Its name"
            : "Next \"" + next + "\": Enter, or another name")
        + before.map(name -> "; a for \"" + name + "\" once more").orElse("")
        + end;
  }

  /** The light after a sweep. */
  public static String light(CoilByCoil.Light light, TextStyle style) {
    return light
        .fault()
        .map(
            f ->
                style.strong("NOT GOOD  ")
                    + f.text()
                    + " ("
                    + f.evidence()
                    + ") "
                    + f.next()
                    + " It is kept all the same.")
        .orElseGet(() -> style.strong("GOOD  ") + light.name() + " is recorded and kept.");
  }

  /** How many recordings an evening at the interface left. */
  public static String ended(int kept) {
    return kept == 1
        ? "One recording was put on the shelf."
        : kept + " recordings were put on the shelf.";
  }

  private static String values(CoilAnswer answer) {
    List<String> values = new ArrayList<>();
    for (CoilValue value : TOLD) {
      if (answer.values().containsKey(value)) {
        values.add(EstimateText.full(answer.values().get(value)));
      }
    }
    return String.join(", ", values);
  }

  /** A recording that is on the shelf already. */
  public static String known(Path file, String name, Standing standing) {
    return head(standing) + file.getFileName() + " is on the shelf already, as \"" + name + "\"";
  }

  /** A file of which nothing is kept. */
  public static String unusable(Path file, String why, Standing standing) {
    String name = String.valueOf(file.getFileName());
    return head(standing) + "not kept: " + (why.contains(name) ? why : name + ": " + why);
  }

  private static String head(Standing standing) {
    int width = String.valueOf(standing.all()).length();
    return String.format(Locale.ROOT, "%" + width + "d/%d  ", standing.done(), standing.all());
  }

  /**
   * The time that is left.
   *
   * @param behindSentence whether what stands before has its full stop
   */
  private static String left(Standing standing, boolean behindSentence) {
    if (standing.done() == standing.all() || Double.isNaN(standing.left())) {
      return "";
    }
    double s = standing.left();
    String time =
        s < MINUTE
            ? String.format(Locale.ROOT, "%.0f s left", Math.max(1, s))
            : String.format(Locale.ROOT, "%.0f min left", s / MINUTE);
    return behindSentence ? " (" + time + ")" : "; " + time;
  }
}
