package org.trebleproof.report.words;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.trebleproof.shelf.item.CoilValue;
import org.trebleproof.shelf.sheet.BenchComparison;
import org.trebleproof.shelf.sheet.Precision;

/** Whether two benches agree, in words. */
public final class BenchText {

  private BenchText() {}

  /** Of all values together: which of them the benches read differently. */
  public static String headline(List<BenchComparison> all, String first, String second) {
    List<String> differ =
        all.stream().filter(BenchComparison::differ).map(c -> c.value().words()).toList();
    String both = "\"" + first + "\" and \"" + second + "\"";
    int coils = all.stream().mapToInt(c -> c.coils().size()).max().orElse(0);
    String on = " on the " + Sentence.counted(coils, "coil") + " that both have measured.";
    return differ.isEmpty()
        ? "No difference is seen between " + both + on
        : both + " read the " + Sentence.listed(differ) + " differently" + on;
  }

  /** Whether they agree in a value. */
  public static String sentence(
      BenchComparison c, Optional<Precision> precision, String first, String second) {
    double half = scaled(c, c.offset().halfWidth());
    double off = off(c);
    String text =
        c.differ()
            ? "\""
                + second
                + "\" reads "
                + rounded(Math.abs(off), half)
                + " ±"
                + rounded(half, half)
                + unit(c.value())
                + (off < 0 ? " less" : " more")
                + " than \""
                + first
                + "\""
            : "no difference is seen between \""
                + first
                + "\" and \""
                + second
                + "\" ("
                + offset(c)
                + ")";
    return Sentence.unended(Sentence.of(c.value().words()))
        + ": "
        + text
        + ", on "
        + c.coils().size()
        + " coils; from "
        + amount(c.value(), c.leastSeen())
        + " on a difference is seen, with "
        + c.coilsForHalf()
        + " coils from half of that on"
        + precision
            .map(
                p ->
                    "; one bench repeats itself within "
                        + amount(c.value(), p.repeatability())
                        + ", any within "
                        + amount(c.value(), p.reproducibility())
                        + " (standard deviations)")
            .orElse("")
        + ".";
  }

  /** By how much the second reads more than the first, such as {@code +0.12 ±0.05 %}. */
  public static String offset(BenchComparison c) {
    double half = scaled(c, c.offset().halfWidth());
    double off = off(c);
    return (off < 0 ? "-" : "+")
        + rounded(Math.abs(off), half)
        + " ±"
        + rounded(half, half)
        + unit(c.value());
  }

  /** The same as a number, in percent or decibels. */
  public static double off(BenchComparison c) {
    return scaled(c, c.offset().value() - (c.value().positive() ? 1 : 0));
  }

  /** How large a difference is that is told as a share, or in decibels. */
  public static String amount(CoilValue value, double x) {
    double scaled = value.positive() ? 100 * x : x;
    return rounded(scaled, scaled) + unit(value);
  }

  private static double scaled(BenchComparison c, double x) {
    return c.value().positive() ? 100 * x : x;
  }

  private static String unit(CoilValue value) {
    return value.positive() ? " %" : " " + value.unit().symbol();
  }

  /** With so many places that a half-width keeps two figures. */
  private static String rounded(double x, double half) {
    int places = half > 0 ? (int) Math.max(0, Math.min(6, 1 - Math.floor(Math.log10(half)))) : 2;
    return String.format(Locale.ROOT, "%." + places + "f", x);
  }
}
