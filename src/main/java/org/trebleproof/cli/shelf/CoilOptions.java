package org.trebleproof.cli.shelf;

import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.OptionalDouble;
import org.trebleproof.cli.command.TradeNumber;
import org.trebleproof.cli.command.WrongUsage;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.shelf.evening.EveningRun;
import org.trebleproof.shelf.item.Circumstances;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** What is said of coils when they are put on the shelf. */
public final class CoilOptions {

  private static final double COLDEST = -20;
  private static final double WARMEST = 60;

  private CoilOptions() {}

  /** Adds them. */
  public static void addTo(CommandSpec spec) {
    spec.addOption(
        ShelfOptions.text("--bench", "WORDS", "Bench at which they were measured.").build());
    spec.addOption(ShelfOptions.text("--who", "NAME", "Who measured them.").build());
    spec.addOption(
        ShelfOptions.text(
                "--date",
                "DAY",
                "When they were measured, such as 2026-11-30. Else the"
                    + " recording's own day, else today.")
            .build());
    spec.addOption(
        TradeNumber.C.option("--temperature")
            .description("Temperature of the coils; their resistance is told at 20 °C.")
            .build());
    spec.addOption(
        ShelfOptions.text("--recipe", "NAME", "After which recipe they were wound.").build());
    spec.addOption(ShelfOptions.texts("--tag", "WORD", "A tag; once for each."));
    spec.addOption(ShelfOptions.text("--notes", "WORDS", "Notes on them.").build());
  }

  /**
   * What they say.
   *
   * @param again whether the coils are on the shelf already
   */
  public static EveningRun.Said said(ParseResult given, boolean again) {
    return new EveningRun.Said(
        again,
        ShelfOptions.value(given, "--recipe").orElse(""),
        ShelfOptions.values(given, "--tag"),
        ShelfOptions.value(given, "--notes").orElse(""),
        new Circumstances(
            ShelfOptions.value(given, "--bench").orElse(""),
            ShelfOptions.value(given, "--who").orElse(""),
            date(given),
            celsius(given)));
  }

  private static OptionalDouble celsius(ParseResult given) {
    Double typed = given.matchedOptionValue("--temperature", null);
    if (typed != null && !(typed >= COLDEST && typed <= WARMEST)) {
      throw new WrongUsage("--temperature lies between -20 and 60, not " + typed);
    }
    return typed == null ? OptionalDouble.empty() : OptionalDouble.of(typed);
  }

  private static String date(ParseResult given) {
    String text = given.matchedOptionValue("--date", "");
    try {
      return text.isEmpty() ? "" : LocalDate.parse(text).toString();
    } catch (DateTimeParseException e) {
      throw new WrongUsage(
          "--date " + Refusal.quote(text) + " is no day: write it like 2026-11-30.");
    }
  }
}
