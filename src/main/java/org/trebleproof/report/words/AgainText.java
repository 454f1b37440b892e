package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.sheet.ResultChange;

/** What another version of this program says otherwise. */
public final class AgainText {

  /** A value has changed when it moved by more than this share of its interval's half-width. */
  private static final double MOVED = 0.1;

  private AgainText() {}

  /**
   * One measurement worked out again.
   *
   * @param change in what the results differ beside their values
   */
  public static String line(ShelvedCoil before, ResultChange change, CoilAnswer now) {
    List<String> changes = changes(before, now);
    if (before.state() == CoilState.WAITING) {
      return before.heading() + ": worked out, " + now.state().word() + ". " + now.reason();
    }
    if (changes.isEmpty()) {
      return before.heading() + ": as before";
    }
    List<String> causes = new ArrayList<>(AgainCauses.words(change));
    if (!before.program().equals(now.program())) {
      causes.add("worked out by version " + now.program() + ", not " + before.program());
    }
    return before.heading()
        + ": "
        + String.join("; ", changes)
        + (causes.isEmpty() ? "" : ". Why: " + String.join("; ", causes))
        + ".";
  }

  /** Whether anything is told otherwise than before. */
  public static boolean changed(ShelvedCoil before, CoilAnswer now) {
    return !changes(before, now).isEmpty();
  }

  /** What all of it comes to. */
  public static String summary(int asBefore, int changed, int first) {
    return Sentence.counted(asBefore + changed + first, "measurement")
        + " worked out: "
        + asBefore
        + " as before, "
        + changed
        + " changed"
        + (first > 0 ? ", " + first + " for the first time." : ".");
  }

  private static List<String> changes(ShelvedCoil before, CoilAnswer now) {
    List<String> changes = new ArrayList<>();
    if (before.state() != now.state()) {
      changes.add(
          before.state().word()
              + " is now "
              + now.state().word()
              + ": "
              + Sentence.unended(now.reason()));
    }
    for (CoilValue value : CoilValue.values()) {
      Optional<Estimate> old = before.value(value);
      Optional<Estimate> other = Optional.ofNullable(now.values().get(value));
      if (old.isPresent() && other.isPresent()) {
        double half = Math.max(old.get().halfWidth(), other.get().halfWidth());
        if (Math.abs(old.get().value() - other.get().value()) > MOVED * half
            || Math.abs(old.get().halfWidth() - other.get().halfWidth()) > MOVED * half) {
          changes.add(
              value.words()
                  + " "
                  + EstimateText.full(old.get())
                  + " is now "
                  + EstimateText.full(other.get()));
        }
      } else if (old.isPresent()) {
        changes.add(value.words() + " " + EstimateText.full(old.get()) + " is no longer told");
      } else if (other.isPresent()) {
        changes.add(value.words() + " is now " + EstimateText.full(other.get()));
      }
    }
    return changes;
  }
}
