package org.trebleproof.report.words;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.trebleproof.quantity.EstimateText;
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
        + left(standing);
  }

  private static String values(CoilAnswer answer) {
    List<String> values = new ArrayList<>();
    for (CoilValue value : TOLD) {
      if (answer.values().containsKey(value)) {
        values.add(EstimateText.value(answer.values().get(value)));
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

  private static String left(Standing standing) {
    if (standing.done() == standing.all() || Double.isNaN(standing.left())) {
      return "";
    }
    double s = standing.left();
    return s < MINUTE
        ? String.format(Locale.ROOT, "; %.0f s left", Math.max(1, s))
        : String.format(Locale.ROOT, "; %.0f min left", s / MINUTE);
  }
}
