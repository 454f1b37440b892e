package org.trebleproof.cli.job;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.job.JobSketch;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.job.Slot;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.ParseResult;

/** What is wired and what was changed, typed as options where no job file says it. */
final class SketchOptions {

  static final String NOW = "--now";
  static final String THEN = "--then";
  static final String CLIP = "--clip";

  private SketchOptions() {}

  static void addTo(CommandSpec spec, String heading) {
    spec.addArgGroup(
        group(heading)
            .addArg(now())
            .addArg(changes(THEN, "What was changed, such as volume=500k."))
            .addArg(clip())
            .build());
  }

  static ArgGroupSpec.Builder group(String heading) {
    return ArgGroupSpec.builder()
        .heading("%n" + heading + "%n")
        .exclusive(false)
        .multiplicity("0..1");
  }

  static OptionSpec now() {
    return changes(
        NOW,
        "What is wired, as marked, such as"
            + " \"volume=250k,tone=250k,toneCapacitor=22n,cable=3 m\".");
  }

  static OptionSpec clip() {
    return OptionSpec.builder(CLIP)
        .paramLabel("FARAD")
        .type(String.class)
        .description(
            "Capacitor clipped across the jack for one more recording, such as \"1n 1%%\".")
        .build();
  }

  private static OptionSpec changes(String name, String description) {
    return OptionSpec.builder(name)
        .paramLabel("KEY=VALUE,...")
        .type(List.class)
        .auxiliaryTypes(String.class)
        .arity("1")
        .description(description)
        .build();
  }

  /** The parts that an option names. */
  static Map<Slot, String> wired(ParseResult given, String option) {
    return given.hasMatchedOption(option)
        ? wired(option, given.matchedOptionValue(option, List.of()))
        : Map.of();
  }

  /**
   * Parts as they are typed.
   *
   * @param where they were typed, for a sentence about what is wrong with them
   */
  static Map<Slot, String> wired(String where, List<String> typed) {
    try {
      return JobSketch.wired(PlanReader.parsed(typed));
    } catch (Refusal e) {
      throw new WrongUsage(where + ": " + e.getMessage());
    }
  }

  static Optional<String> clip(ParseResult given) {
    Optional<String> clip = Optional.ofNullable(given.matchedOptionValue(CLIP, null));
    clip.ifPresent(text -> check(CLIP, text, MarkedQuantity.CAPACITOR));
    return clip;
  }

  static void check(String where, String text, MarkedQuantity quantity) {
    try {
      TradeNotation.marking(text, quantity);
    } catch (TradeNotationException e) {
      throw new WrongUsage(where + ": " + e.getMessage());
    }
  }

  /** Refuses a wiring of which a part is missing, before the job is read. */
  static void check(Map<Slot, String> now, Map<Slot, String> then) {
    checkTone(NOW, now);
    Map<Slot, String> changed = new LinkedHashMap<>(now);
    changed.putAll(then);
    checkTone(THEN, changed);
  }

  private static void checkTone(String option, Map<Slot, String> wired) {
    for (Slot[] pair :
        new Slot[][] {
          {Slot.TONE, Slot.TONE_CAPACITOR}, {Slot.SECOND_TONE, Slot.SECOND_TONE_CAPACITOR}
        }) {
      boolean pot = !wired.getOrDefault(pair[0], PlanReader.NONE).equals(PlanReader.NONE);
      boolean capacitor = !wired.getOrDefault(pair[1], PlanReader.NONE).equals(PlanReader.NONE);
      if (pot != capacitor) {
        Slot missing = pot ? pair[1] : pair[0];
        throw new WrongUsage(
            option
                + ": a tone control is a pot and a capacitor: add "
                + missing.key()
                + "="
                + (pot ? "22n" : "250k")
                + ", or what it is marked with.");
      }
    }
  }
}
