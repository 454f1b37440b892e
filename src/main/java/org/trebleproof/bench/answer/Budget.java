package org.trebleproof.bench.answer;

import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Unit;

/**
 * Where the interval of one number comes from: an uncertainty budget after JCGM 100:2008 (GUM),
 * 5.1. What each source alone does to the number is squared; the squares add up to the whole, so
 * each is a share of it.
 *
 * @param number which number
 * @param unit of it
 * @param uncertainty combined standard uncertainty, in the unit
 * @param shares of its square, adding up to 1, the largest first
 */
public record Budget(Number number, Unit unit, double uncertainty, List<Share> shares) {

  public Budget {
    shares = List.copyOf(shares);
  }

  /** Which number a budget is of. */
  public sealed interface Number {
    /** As result files name it, such as {@code before.resonance}. */
    String text();

    /** What it is called at the bench. */
    String words();

    /** A row of the result. */
    record OfRow(RowKey key) implements Number {
      @Override
      public String text() {
        return key.text();
      }

      @Override
      public String words() {
        return key.words();
      }
    }

    /** The change of level at a frequency [Hz]. */
    record OfLevel(long hz) implements Number {
      @Override
      public String text() {
        return "difference." + hz + "Hz";
      }

      @Override
      public String words() {
        return "change of level";
      }
    }
  }

  /** What makes numbers uncertain. */
  public enum Source {
    SERIES_RESISTOR("series-resistor", "series resistor"),
    CHANNELS("channels", "match of the channels"),
    INPUT("input", "recorder's input"),
    EXCITER("exciter", "exciter's place and field"),
    MARKING("marking", "marking"),
    READING("reading", "ohmmeter readings"),
    KNOBS("knobs", "places of the pots"),
    TEMPERATURE("temperature", "temperature"),
    USUAL("usual", "usual values of coils"),
    MODEL("model", "choice of coil model"),
    NOISE("noise", "noise"),
    STRIKES("strikes", "how the strikes differ"),
    PATH("interface", "interface's clock and level");

    private final String code;
    private final String words;

    Source(String code, String words) {
      this.code = code;
      this.words = words;
    }

    /** Its name in result files. */
    public String code() {
      return code;
    }

    /** What it is called at the bench. */
    public String words() {
      return words;
    }
  }

  /**
   * Where uncertainty comes from.
   *
   * @param source what kind of thing it is
   * @param part whose marking; empty for all else
   */
  public record Origin(Source source, String part) {
    /** An origin that is no part's. */
    public static Origin of(Source source) {
      return new Origin(source, "");
    }

    /** Such as {@code noise} or {@code marking of clip}. */
    public String words() {
      return part.isEmpty() ? source.words() : source.words() + " of " + part;
    }
  }

  /**
   * One source's share of the squared standard uncertainty.
   *
   * @param share 0 to 1
   */
  public record Share(Origin origin, double share) {}

  /**
   * A budget from the squares that each origin contributes.
   *
   * @param scale from the square root of their sum to the standard uncertainty in the unit
   */
  public static Budget of(Number number, Unit unit, Map<Origin, Double> squares, double scale) {
    double sum = squares.values().stream().mapToDouble(Double::doubleValue).sum();
    return new Budget(
        number,
        unit,
        scale * Math.sqrt(sum),
        squares.entrySet().stream()
            .filter(e -> e.getValue() > 0)
            .map(e -> new Share(e.getKey(), e.getValue() / sum))
            .sorted(Comparator.comparingDouble(Share::share).reversed())
            .toList());
  }

  /** Adds to what an origin contributes. */
  public static void add(Map<Origin, Double> squares, Origin origin, double square) {
    squares.merge(origin, square, Double::sum);
  }

  /** No contributions yet. */
  public static Map<Origin, Double> nothing() {
    return new LinkedHashMap<>();
  }
}
