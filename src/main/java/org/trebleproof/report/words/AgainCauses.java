package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Refusal;

/**
 * Why a recording comes out otherwise than it did, as its two result files tell: by another coil
 * model, by what the checks find, or by a source of uncertainty that is taken to be larger or
 * smaller.
 */
final class AgainCauses {

  /** A source counts as a cause if its standard uncertainty has changed by more than this share. */
  private static final double CHANGED = 0.1;

  /** A source that makes up less than this of a squared uncertainty is not what changed it. */
  private static final double LEADING = 0.2;

  private static final String DEPARTURES = "departures";

  private final Map<String, Object> before;
  private final Map<String, Object> now;

  /** Both as result files hold them. */
  AgainCauses(String before, String now) {
    this.before = parsed(before);
    this.now = parsed(now);
  }

  private static Map<String, Object> parsed(String result) {
    try {
      return JsonFile.parse(result, "result", Refusal::new);
    } catch (Refusal notReadAnyMore) {
      return Map.of();
    }
  }

  /** In words, the likeliest first; empty where nothing tells. */
  List<String> words() {
    return Stream.of(model().stream(), findings().stream(), sources().stream())
        .flatMap(s -> s)
        .toList();
  }

  /** What both models have in common is not told. */
  private Optional<String> model() {
    Set<String> then = model(before);
    Set<String> here = model(now);
    if (then.isEmpty() || here.isEmpty() || then.equals(here)) {
      return Optional.empty();
    }
    String gone = told(then, here);
    String come = told(here, then);
    return Optional.of(
        "another model of the coil fits better: "
            + (come.isEmpty() ? "without " + gone : gone.isEmpty() ? "with " + come : come)
            + (come.isEmpty() || gone.isEmpty() ? "" : " in place of " + gone));
  }

  private static String told(Set<String> all, Set<String> common) {
    return Sentence.listed(all.stream().filter(part -> !common.contains(part)).toList());
  }

  private static Set<String> model(Map<String, Object> result) {
    if (!(result.get("model") instanceof Map<?, ?> model)
        || !(model.get("name") instanceof String name)) {
      return Set.of();
    }
    Set<String> parts = new LinkedHashSet<>(List.of(name.split(", ")));
    parts.remove(DEPARTURES);
    return parts;
  }

  private List<String> findings() {
    Map<String, String> then = findings(before);
    Map<String, String> here = findings(now);
    List<String> words = new ArrayList<>();
    here.forEach(
        (code, text) -> {
          if (!then.containsKey(code)) {
            words.add("a check says now: " + Sentence.unended(text));
          }
        });
    then.forEach(
        (code, text) -> {
          if (!here.containsKey(code)) {
            words.add("no check says any more: " + Sentence.unended(text));
          }
        });
    return words;
  }

  private static Map<String, String> findings(Map<String, Object> result) {
    return sections(result, "findings").stream()
        .filter(f -> f.get("code") instanceof String && f.get("text") instanceof String)
        .collect(
            Collectors.toMap(
                f -> String.valueOf(f.get("code")),
                f -> String.valueOf(f.get("text")),
                (first, further) -> first,
                TreeMap::new));
  }

  /** Sources of uncertainty that are taken to be larger or smaller now. */
  private List<String> sources() {
    Map<String, Map<Source, Double>> then = budgets(before);
    Map<String, Map<Source, Double>> here = budgets(now);
    Set<Source> more = new TreeSet<>();
    Set<Source> less = new TreeSet<>();
    here.forEach(
        (number, squares) -> {
          Map<Source, Double> old = then.getOrDefault(number, Map.of());
          double whole = Math.max(sum(squares), sum(old));
          for (Source source : old.isEmpty() ? Set.<Source>of() : Set.of(Source.values())) {
            double a = old.getOrDefault(source, 0.0);
            double b = squares.getOrDefault(source, 0.0);
            if (Math.max(a, b) > LEADING * whole
                && Math.abs(Math.sqrt(b) - Math.sqrt(a)) > CHANGED * Math.sqrt(Math.max(a, b))) {
              (b > a ? more : less).add(source);
            }
          }
        });
    Set<Source> both = new TreeSet<>(more);
    both.retainAll(less);
    more.removeAll(both);
    less.removeAll(both);
    List<String> words = new ArrayList<>();
    more.forEach(source -> words.add(counts(source, "more")));
    less.forEach(source -> words.add(counts(source, "less")));
    both.forEach(source -> words.add("the " + source.words() + " counts otherwise"));
    return words;
  }

  private static String counts(Source source, String how) {
    return switch (source) {
      case NOISE -> "there is taken to be " + how + " noise on the recording";
      case MODEL -> "coil models that fit alike differ " + how;
      case SERIES_RESISTOR, CHANNELS, INPUT, EXCITER, PATH ->
          "the bench's calibration is trusted "
              + (how.equals("more") ? "less" : "more")
              + " ("
              + source.words()
              + ")";
      default -> source.words() + ": counts " + how;
    };
  }

  /** Squared standard uncertainty that each source contributes, by number. */
  private static Map<String, Map<Source, Double>> budgets(Map<String, Object> result) {
    Map<String, Map<Source, Double>> all = new HashMap<>();
    for (Map<?, ?> budget : sections(result, "uncertainty")) {
      double u = number(budget.get("standardUncertainty"));
      Map<Source, Double> squares = new HashMap<>();
      for (Map<?, ?> share : sections(budget, "shares")) {
        for (Source source : Source.values()) {
          if (source.code().equals(share.get("source"))) {
            squares.merge(source, u * u * number(share.get("share")), Double::sum);
          }
        }
      }
      all.put(String.valueOf(budget.get("key")), squares);
    }
    return all;
  }

  private static double sum(Map<Source, Double> squares) {
    return squares.values().stream().mapToDouble(Double::doubleValue).sum();
  }

  private static double number(Object value) {
    return value instanceof Number n ? n.doubleValue() : 0;
  }

  private static List<Map<?, ?>> sections(Map<?, ?> of, String key) {
    List<Map<?, ?>> sections = new ArrayList<>();
    if (of.get(key) instanceof List<?> list) {
      for (Object one : list) {
        if (one instanceof Map<?, ?> section) {
          sections.add(section);
        }
      }
    }
    return sections;
  }
}
