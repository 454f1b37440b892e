package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.shelf.item.CoilAnswer;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;

/** What another version of this program says otherwise. */
public final class AgainText {

  /** A value has changed when it moved by more than this share of its interval's half-width. */
  private static final double MOVED = 0.1;

  private AgainText() {}

  /** One measurement worked out again. */
  public static String line(ShelvedCoil before, CoilAnswer now) {
    List<String> changes = new ArrayList<>();
    if (before.state() != now.state()) {
      changes.add(before.state().word() + " is now " + now.state().word() + ": " + now.reason());
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
    return before.heading()
        + ": "
        + (changes.isEmpty()
            ? "as before"
            : String.join("; ", changes)
                + " (version "
                + before.program()
                + ", now "
                + now.program()
                + ")");
  }
}
