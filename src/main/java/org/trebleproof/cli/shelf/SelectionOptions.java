package org.trebleproof.cli.shelf;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.json.JsonSection;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.TradeNotation;
import org.trebleproof.quantity.TradeNotationException;
import org.trebleproof.shelf.item.CoilQuery;
import org.trebleproof.shelf.item.CoilState;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.item.ShelvedCoil;
import org.trebleproof.shelf.store.ShelfStore;
import picocli.CommandLine.Model.ArgGroupSpec;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.PositionalParamSpec;
import picocli.CommandLine.ParseResult;

/** Which coils a command is about. */
final class SelectionOptions {

  private static final String WHERE = "--where";

  private SelectionOptions() {}

  static void addTo(CommandSpec spec) {
    spec.addPositional(
        PositionalParamSpec.builder()
            .paramLabel("NAME")
            .index("0..*")
            .arity("0..*")
            .type(List.class)
            .auxiliaryTypes(String.class)
            .description("Coils by their names; without any all that the options leave.")
            .build());
    addFilters(spec);
  }

  static void addFilters(CommandSpec spec) {
    spec.addArgGroup(
        ArgGroupSpec.builder()
            .heading("%nWhich coils:%n")
            .exclusive(false)
            .multiplicity("0..1")
            .addArg(
                ShelfOptions.texts(
                    WHERE,
                    "VALUE=A..B",
                    "A value lies between two, such as resistance=5.5k..6k or peak=..12; values are "
                        + String.join(", ", CoilValue.codes())
                        + "."))
            .addArg(text("--text", "WORDS", "These words stand in name, notes, tags or verdict."))
            .addArg(text("--recipe", "NAME", "Wound after this recipe."))
            .addArg(text("--bench", "WORDS", "Measured at this bench."))
            .addArg(text("--who", "NAME", "Measured by this one."))
            .addArg(text("--tag", "WORD", "With this tag."))
            .addArg(
                text(
                    "--verdict",
                    "WORD",
                    "With this verdict: "
                        + String.join(
                            ", ", Arrays.stream(CoilState.values()).map(CoilState::word).toList())
                        + "."))
            .addArg(text("--from", "DAY", "Measured on this day or later, such as 2026-11-30."))
            .addArg(text("--to", "DAY", "Measured on this day or before."))
            .build());
  }

  private static OptionSpec text(String name, String label, String description) {
    return ShelfOptions.text(name, label, description).build();
  }

  static void addOrder(CommandSpec spec) {
    spec.addOption(
        text(
            "--sort",
            "COLUMN",
            "By a value, or by "
                + String.join(
                    ", ",
                    Arrays.stream(CoilQuery.TextColumn.values())
                        .map(CoilQuery.TextColumn::word)
                        .toList())
                + "."));
    spec.addOption(
        OptionSpec.builder("--backwards")
            .type(Boolean.class)
            .arity("0")
            .description("The largest first.")
            .build());
    spec.addOption(
        OptionSpec.builder("--every")
            .type(Boolean.class)
            .arity("0")
            .description("Every measurement of a coil, not its last alone.")
            .build());
  }

  /**
   * What a command line asks for.
   *
   * @param names whether its words are names of coils
   */
  static CoilQuery query(ParseResult given, boolean names) {
    Map<CoilValue, double[]> ranges = new EnumMap<>(CoilValue.class);
    for (String text : ShelfOptions.values(given, WHERE)) {
      range(text, ranges);
    }
    return new CoilQuery(
        names ? given.matchedPositionalValue(0, List.<String>of()) : List.of(),
        ranges,
        ShelfOptions.value(given, "--text"),
        ShelfOptions.value(given, "--recipe"),
        ShelfOptions.value(given, "--bench"),
        ShelfOptions.value(given, "--who"),
        ShelfOptions.value(given, "--tag"),
        ShelfOptions.value(given, "--verdict").map(SelectionOptions::state),
        day(given, "--from"),
        day(given, "--to"),
        given.hasMatchedOption("--every"),
        order(given));
  }

  /**
   * The coils that are wanted.
   *
   * @throws Refusal where a name is not on the shelf, or nothing is left
   */
  static List<ShelvedCoil> coils(ShelfStore store, CoilQuery query, boolean curves) {
    List<ShelvedCoil> all = store.measurements(curves);
    List<String> there = all.stream().map(ShelvedCoil::name).distinct().toList();
    for (String name : query.names()) {
      if (!there.contains(name)) {
        throw new Refusal(
            "there is no coil "
                + Refusal.quote(name)
                + " on the shelf"
                + JsonSection.nearest(name, there)
                    .map(near -> ": did you mean \"" + near + "\"?")
                    .orElse(": trebleproof shelf list names them."));
      }
    }
    List<ShelvedCoil> wanted = query.of(all);
    if (wanted.isEmpty()) {
      throw new Refusal(
          all.isEmpty()
              ? "the shelf is empty: trebleproof shelf add puts coils on it."
              : "of " + there.size() + " coils on the shelf none is left by these options.");
    }
    return wanted;
  }

  private static CoilState state(String word) {
    return Arrays.stream(CoilState.values())
        .filter(s -> s.word().equals(word))
        .findFirst()
        .orElseThrow(
            () ->
                new WrongUsage(
                    "--verdict "
                        + Refusal.quote(word)
                        + " is none of "
                        + String.join(
                            ", ", Arrays.stream(CoilState.values()).map(CoilState::word).toList())
                        + "."));
  }

  private static Optional<String> day(ParseResult given, String option) {
    return ShelfOptions.value(given, option)
        .map(
            text -> {
              try {
                return LocalDate.parse(text).toString();
              } catch (DateTimeParseException e) {
                throw new WrongUsage(
                    option + " " + Refusal.quote(text) + " is no day: write it like 2026-11-30.");
              }
            });
  }

  private static CoilQuery.Order order(ParseResult given) {
    String by = given.matchedOptionValue("--sort", "name");
    boolean backwards = given.hasMatchedOption("--backwards");
    Optional<CoilValue> value = CoilValue.of(by);
    Optional<CoilQuery.TextColumn> text =
        Arrays.stream(CoilQuery.TextColumn.values()).filter(c -> c.word().equals(by)).findFirst();
    if (value.isEmpty() && text.isEmpty()) {
      List<String> known = new ArrayList<>(CoilValue.codes());
      Arrays.stream(CoilQuery.TextColumn.values()).forEach(c -> known.add(c.word()));
      throw new WrongUsage(
          "--sort " + Refusal.quote(by) + " is none of " + String.join(", ", known) + ".");
    }
    return new CoilQuery.Order(value, text, backwards);
  }

  /** A value asked for by its name. */
  static CoilValue value(String option, String code) {
    return CoilValue.of(code.strip().toLowerCase(Locale.ROOT))
        .orElseThrow(
            () ->
                new WrongUsage(
                    option
                        + ": there is no value "
                        + Refusal.quote(code)
                        + ", only "
                        + String.join(", ", CoilValue.codes())
                        + "."));
  }

  private static void range(String text, Map<CoilValue, double[]> ranges) {
    int equals = text.indexOf('=');
    int dots = text.indexOf("..", Math.max(0, equals));
    if (equals < 1 || dots < 0) {
      throw new WrongUsage(
          WHERE
              + " "
              + Refusal.quote(text)
              + " must name a value and two ends, such as resistance=5.5k..6k.");
    }
    CoilValue value = value(WHERE, text.substring(0, equals));
    ranges.put(
        value,
        new double[] {
          end(value, text.substring(equals + 1, dots), Double.NEGATIVE_INFINITY),
          end(value, text.substring(dots + 2), Double.POSITIVE_INFINITY)
        });
  }

  private static double end(CoilValue value, String text, double none) {
    try {
      return text.isBlank() ? none : TradeNotation.value(text.strip(), value.unit());
    } catch (TradeNotationException e) {
      throw new WrongUsage(WHERE + " " + value.code() + ": " + e.getMessage());
    }
  }
}
