package org.trebleproof.bench.live;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.apache.commons.math3.distribution.TDistribution;
import org.trebleproof.file.GivenFile;
import org.trebleproof.file.Irreplaceable;
import org.trebleproof.file.WholeFile;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Refusal;

/**
 * What was found of a bench on earlier days, as a table beside its calibration file: one line per
 * quantity and visit, in SI units. A visit that did not agree is kept, but later ones are not held
 * against it.
 */
public final class BenchHistory {

  private static final String HEAD = Irreplaceable.HISTORY_HEAD;

  /** Nothing found of a bench is smaller or larger, in SI units. */
  private static final double SMALLEST = 1e-15;

  private static final double LARGEST = 1e9;

  private static final int CELLS = 5;

  /** Why a line was written, and whether it counts when later visits are held against it. */
  public enum Occasion {
    CALIBRATE("calibrate", true),
    CHECK("check", true),
    /** Earlier visits count no more: the bench was changed on purpose. */
    BASELINE("baseline", true),
    FAILED_CALIBRATE("calibrate failed", false),
    FAILED_CHECK("check failed", false);

    private final String word;
    private final boolean counts;

    Occasion(String word, boolean counts) {
      this.word = word;
      this.counts = counts;
    }

    /** As it stands in the table. */
    public String word() {
      return word;
    }

    /** The same occasion where the bench was not as it was before. */
    Occasion failed() {
      return this == CHECK ? FAILED_CHECK : FAILED_CALIBRATE;
    }
  }

  private final Path file;
  private final List<Entry> entries;

  private BenchHistory(Path file, List<Entry> entries) {
    this.file = file;
    this.entries = entries;
  }

  /**
   * One finding of one visit.
   *
   * @param occasion why it was found
   * @param quantity such as {@code channel ratio}
   * @param value in SI units
   * @param repeatability relative half-width, 95 %, of what the same bench would find again
   */
  public record Entry(
      LocalDate date, Occasion occasion, String quantity, double value, double repeatability) {

    /** The same finding on another occasion. */
    Entry on(Occasion other) {
      return new Entry(date, other, quantity, value, repeatability);
    }
  }

  /**
   * Today's finding against the history.
   *
   * @param visits earlier findings
   * @param mean of them; NaN without any
   * @param difference of today's from the mean, relative
   * @param allowed half-width of the 95 % interval of that difference, were nothing changed
   */
  public record Agreement(Entry today, int visits, double mean, double difference, double allowed) {

    /** Whether today's finding is what the history lets one expect; true without a history. */
    public boolean agrees() {
      return visits == 0 || Math.abs(difference) <= allowed;
    }

    /** The verdict in a sentence. */
    public String sentence() {
      if (visits == 0) {
        return today.quantity()
            + ": no earlier visit to compare with; this one begins the history.";
      }
      return String.format(
          Locale.ROOT,
          "%s: %+.3f %% from the mean of %d earlier %s; up to ±%.3f %% is to be expected: %s.",
          today.quantity(),
          100 * difference,
          visits,
          visits == 1 ? "visit" : "visits",
          100 * allowed,
          agrees() ? "agrees" : "has changed");
    }
  }

  /**
   * Reads a history; an empty one where there is no file.
   *
   * @throws Refusal if the file is no such table
   */
  public static BenchHistory read(Path file) {
    List<Entry> entries = new ArrayList<>();
    if (Files.exists(file, LinkOption.NOFOLLOW_LINKS)) {
      Path from = GivenFile.readable(file, words -> new Refusal(file + " " + words));
      try {
        List<String> lines = Files.readAllLines(from);
        if (lines.isEmpty() || !lines.get(0).equals(HEAD)) {
          throw new Refusal(
              file
                  + ", line 1: a bench history begins with "
                  + HEAD
                  + "; mend it, or move it away.");
        }
        for (int n = 1; n < lines.size(); n++) {
          entries.add(entry(file, n + 1, lines.get(n).split(",", -1)));
        }
      } catch (IOException e) {
        throw new Refusal(file + " cannot be read: check that it is text in UTF-8.", e);
      }
    }
    return new BenchHistory(file, entries);
  }

  private static Entry entry(Path file, int line, String[] words) {
    try {
      if (words.length == CELLS && !words[2].isBlank()) {
        double value = Double.parseDouble(words[3]);
        double repeatability = Double.parseDouble(words[4]);
        Optional<Occasion> occasion =
            Arrays.stream(Occasion.values()).filter(o -> o.word().equals(words[1])).findFirst();
        if (occasion.isPresent()
            && value >= SMALLEST
            && value <= LARGEST
            && repeatability >= 0
            && repeatability <= 1) {
          return new Entry(
              LocalDate.parse(words[0]), occasion.get(), words[2], value, repeatability);
        }
      }
    } catch (DateTimeParseException | NumberFormatException e) {
      throw wrong(file, line);
    }
    throw wrong(file, line);
  }

  private static Refusal wrong(Path file, int line) {
    return new Refusal(
        file
            + ", line "
            + line
            + ": a line of the history is "
            + HEAD
            + ", with numbers that a bench can show; mend or delete it.");
  }

  /** The same with more findings, written whole. */
  public BenchHistory with(List<Entry> more) {
    List<Entry> all = new ArrayList<>(entries);
    all.addAll(more);
    StringBuilder text = new StringBuilder(HEAD).append('\n');
    for (Entry e : all) {
      text.append(e.date()).append(',').append(e.occasion().word()).append(',');
      text.append(e.quantity()).append(',').append(e.value()).append(',');
      text.append(String.format(Locale.ROOT, "%.3g", e.repeatability())).append('\n');
    }
    WholeFile.writeText(file, text.toString());
    return new BenchHistory(file, all);
  }

  public List<Entry> entries() {
    return List.copyOf(entries);
  }

  /** Earlier findings of a quantity that count: those that agreed, from the last baseline on. */
  List<Entry> counting(String quantity) {
    List<Entry> counting = new ArrayList<>();
    for (Entry e : entries) {
      if (e.quantity().equals(quantity)) {
        if (e.occasion() == Occasion.BASELINE) {
          counting.clear();
        }
        if (e.occasion().counts) {
          counting.add(e);
        }
      }
    }
    return counting;
  }

  /**
   * Holds a finding of today against those of earlier visits. With three and more their own scatter
   * counts, by Student's t, if it is larger than the repeatability.
   */
  public Agreement compare(Entry today) {
    double[] values = counting(today.quantity()).stream().mapToDouble(Entry::value).toArray();
    int n = values.length;
    if (n == 0) {
      return new Agreement(today, 0, Double.NaN, Double.NaN, Double.NaN);
    }
    double mean = 0;
    for (double v : values) {
      mean += v / n;
    }
    double squares = 0;
    for (double v : values) {
      squares += (v / mean - 1) * (v / mean - 1);
    }
    double own = today.repeatability() / Estimate.NORMAL_95;
    double scatter = n > 2 ? Math.sqrt(squares / (n - 1)) : 0;
    double factor =
        scatter > own
            ? new TDistribution(n - 1).inverseCumulativeProbability(0.975)
            : Estimate.NORMAL_95;
    double allowed = factor * Math.max(own, scatter) * Math.sqrt(1 + 1.0 / n);
    return new Agreement(today, n, mean, today.value() / mean - 1, allowed);
  }
}
