package org.trebleproof.bench.hum;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.trebleproof.bench.hum.HumCause.Code;
import org.trebleproof.bench.hum.HumCause.Strength;
import org.trebleproof.signal.hum.Packets;
import org.trebleproof.signal.hum.RadioSounds;

/** Reasons from what is heard of radio in the states to one cause. */
final class RadioCause {

  private static final String OTHER_DAY =
      "Switch phones, cordless phones and modems off or carry them away, and record again: if it"
          + " stays, it is the mains.";

  /** Share of the time that a brushed string rings. */
  private static final double MOMENT = 0.15;

  private RadioCause() {}

  /** The cause, if there is any sign of radio. */
  static Optional<HumCause> of(List<StateReading> readings) {
    List<String> clauses = new ArrayList<>();
    boolean clocked =
        told(clauses, believed(readings), RadioCause::phone)
            | told(clauses, readings, RadioCause::frames)
            | told(clauses, readings, RadioCause::beacons);
    int free = 0;
    int states = 0;
    for (StateReading reading : readings) {
      if (loose(reading.radio())) {
        states++;
        free += reading.state().handed() ? 0 : 1;
      }
    }
    // a hand on the strings rustles: what is heard only there is no radio
    boolean loose = free > 0 || states == readings.size() && states > 0;
    if (loose) {
      told(clauses, readings, RadioCause::packets);
      told(clauses, readings, RadioCause::programme);
    }
    if (clocked || loose) {
      Strength strength = clocked || states > 1 ? Strength.LIKELY : Strength.POSSIBLE;
      String next =
          strength == Strength.LIKELY
              ? CauseWords.mend(Code.RADIO)
              : "Record the same state again: radio comes back, an accident does not.";
      return Optional.of(new HumCause(Code.RADIO, strength, String.join("; ", clauses), next));
    }
    if (told(clauses, readings, RadioCause::unclear)) {
      return Optional.of(
          new HumCause(Code.RADIO, Strength.CANNOT_TELL, String.join("; ", clauses), OTHER_DAY));
    }
    return Optional.empty();
  }

  /** A moment of bursts under a hand alone may be a string's partials. */
  private static List<StateReading> believed(List<StateReading> readings) {
    return readings.stream()
        .filter(r -> !r.state().handed() || r.radio().phone().occupancy() > MOMENT)
        .toList();
  }

  private static boolean loose(RadioSounds radio) {
    return radio.programme().isPresent()
        || radio.packets().isPresent() && !radio.packets().get().beacons();
  }

  /** Adds one clause for all states in which a kind is heard. */
  private static boolean told(
      List<String> clauses,
      List<StateReading> readings,
      Function<RadioSounds, Optional<String[]>> kind) {
    Map<String, List<String>> heard = new LinkedHashMap<>();
    for (StateReading reading : readings) {
      kind.apply(reading.radio())
          .ifPresent(
              words ->
                  heard
                      .computeIfAbsent(words[0], key -> new ArrayList<>())
                      .add(reading.state().words() + words[1]));
    }
    heard.forEach((what, where) -> clauses.add(what + ": " + String.join(", ", where)));
    return !heard.isEmpty();
  }

  private static Optional<String[]> phone(RadioSounds radio) {
    return radio.phone().found()
        ? said(
            "bursts at 217 per second, as a mobile phone's transmitter makes them",
            " (%.0f %% of the time)",
            100 * radio.phone().occupancy())
        : Optional.empty();
  }

  private static Optional<String[]> frames(RadioSounds radio) {
    return radio
        .frames()
        .flatMap(
            f ->
                said(
                    String.format(
                        Locale.ROOT,
                        "packets at %.4g per second, exact as a crystal, %s",
                        f.clock().rate(),
                        f.clock().words()),
                    " (%.0f lines)",
                    f.hits()));
  }

  private static Optional<String[]> beacons(RadioSounds radio) {
    return radio
        .packets()
        .filter(Packets::beacons)
        .flatMap(
            p ->
                said(
                    "packets, some of them every 102.4 ms, as a wireless network's beacons come",
                    " (%.0f per second)",
                    p.perSecond()));
  }

  private static Optional<String[]> packets(RadioSounds radio) {
    return radio
        .packets()
        .filter(p -> !p.beacons())
        .flatMap(
            p ->
                said(
                    "short packets with random gaps, on no clock of the mains",
                    " (%.0f per second)",
                    p.perSecond()));
  }

  private static Optional<String[]> programme(RadioSounds radio) {
    return radio
        .programme()
        .flatMap(
            p ->
                said(
                    "a sound that rises and falls all through, as speech or music does: a"
                        + " broadcast picked up, or the room itself",
                    "",
                    0));
  }

  private static Optional<String[]> unclear(RadioSounds radio) {
    return radio
        .unclear()
        .flatMap(
            f ->
                said(
                    String.format(
                        Locale.ROOT,
                        "lines at multiples of exactly %.0f Hz: either packets at %.0f per second,"
                            + " %s, or a mains that stands at exactly 50 Hz",
                        f.clock().rate(),
                        f.clock().rate(),
                        f.clock().words()),
                    "",
                    0));
  }

  private static Optional<String[]> said(String what, String where, double number) {
    return Optional.of(new String[] {what, String.format(Locale.ROOT, where, number)});
  }
}
