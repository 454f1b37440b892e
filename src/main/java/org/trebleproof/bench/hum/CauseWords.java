package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.trebleproof.bench.hum.HumCause.Code;
import org.trebleproof.bench.hum.HumResult.StateChange;
import org.trebleproof.quantity.Estimate;

/** The reasoning in words: measured differences as evidence, and what follows from a cause. */
final class CauseWords {

  /** A change no larger than this is what a steady hum does by itself [dB]. */
  private static final double SAME = 1.0;

  /** Down by this much, a part is gone [dB]. */
  private static final double GONE = 22;

  private CauseWords() {}

  /** The measured differences that speak about a cause. */
  static String evidence(Code code, Map<HumState, StateChange> changes) {
    List<String> clauses = new ArrayList<>();
    switch (code) {
      case UNSHIELDED, STRING_GROUND_OPEN -> {
        add(clauses, changes, HumState.ON_STRINGS, "buzz");
        add(clauses, changes, HumState.ON_SLEEVE, "buzz");
        add(clauses, changes, HumState.VOLUME_ZERO, "buzz");
      }
      case MAGNETIC -> {
        add(clauses, changes, HumState.ON_STRINGS, "hum");
        add(clauses, changes, HumState.ON_SLEEVE, "hum");
        add(clauses, changes, HumState.TURNED, "hum");
        add(clauses, changes, HumState.VOLUME_ZERO, "hum");
      }
      case DOWNSTREAM, INTERFACE -> {
        add(clauses, changes, HumState.VOLUME_ZERO, "hum and buzz");
        add(clauses, changes, HumState.NO_LEAD, "hum and buzz");
      }
      case RADIO, QUIET -> {}
      default -> throw new IllegalStateException(code.name());
    }
    return String.join("; ", clauses);
  }

  private static void add(
      List<String> clauses, Map<HumState, StateChange> changes, HumState state, String part) {
    StateChange change = changes.get(state);
    if (change == null) {
      return;
    }
    Estimate d =
        switch (part) {
          case "hum" -> change.hum();
          case "buzz" -> change.buzz();
          default -> change.lines();
        };
    clauses.add(clause(state, part, d, change.reference()));
  }

  static String clause(HumState state, String part, Estimate d, HumState reference) {
    String where = state.words() + ": " + part + " ";
    String than = reference == HumState.HANDS_OFF ? "" : " against " + reference.words();
    if (d.high() < -GONE) {
      return where + "gone, " + number(-d.high()) + " dB down or more" + than;
    }
    if (d.low() <= SAME && d.high() >= -SAME && Math.abs(d.value()) <= SAME + d.halfWidth()) {
      double within = Math.max(Math.abs(d.low()), Math.abs(d.high()));
      return where + "the same within " + number(within) + " dB" + than;
    }
    boolean several = part.contains(" and ");
    String verb = (d.value() < 0 ? "fall" : "rise") + (several ? " by " : "s by ");
    double low = Math.min(Math.abs(d.low()), Math.abs(d.high()));
    double high = Math.max(Math.abs(d.low()), Math.abs(d.high()));
    return where
        + verb
        + number(Math.abs(d.value()))
        + " dB ("
        + number(low)
        + " to "
        + number(high)
        + ")"
        + than;
  }

  private static String number(double decibel) {
    return String.format(Locale.ROOT, "%.1f", decibel);
  }

  /** What follows once a cause is likely. */
  static String mend(Code code) {
    return switch (code) {
      case UNSHIELDED ->
          "The strings are grounded, and the body carries the noise in: line the cavity with foil"
              + " or conductive paint, join that shield to ground, and record the same states as a"
              + " second visit.";
      case STRING_GROUND_OPEN ->
          "With the lead pulled out of everything, measure from a string to the plug's sleeve with"
              + " an ohmmeter: a few ohms is right; if it reads more, mend the wire to the bridge.";
      case MAGNETIC ->
          "Copper foil will not cure it: go farther from transformers and motors, find the quiet"
              + " angle, or fit a hum-cancelling coil.";
      case DOWNSTREAM ->
          "Try another lead, then run the computer from its battery with only the interface on it,"
              + " and feed what remains from one outlet strip; break a ground loop in the signal"
              + " lead with an isolating transformer, never in the protective earth.";
      case INTERFACE ->
          "Try another port, another supply, or the computer on its battery, with no lead in the"
              + " input, until this recording is quiet.";
      case RADIO ->
          "Put phones and radio links several metres away or into flight mode, and record again.";
      case QUIET -> "There is nothing to mend; go on playing.";
    };
  }

  /** What to record next. */
  static String test(HumState state) {
    String test = state.test();
    return Character.toUpperCase(test.charAt(0)) + test.substring(1) + ".";
  }
}
