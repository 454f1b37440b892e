package org.trebleproof.shelf.sheet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.json.JsonFile;
import org.trebleproof.quantity.Refusal;

/**
 * In what two result files of one recording differ beside their values: the model of the coil, what
 * the checks find, and how much each source of uncertainty does.
 *
 * @param gone parts of the coil's model that the later one has not
 * @param come parts of the coil's model that the former one had not
 * @param silent what a check said that none says any more
 * @param found what a check says that none said before
 * @param more sources that make some numbers less sure than before, and none surer
 * @param less sources that make some numbers surer than before, and none less sure
 * @param otherwise sources that do both
 */
public record ResultChange(
    List<String> gone,
    List<String> come,
    List<String> silent,
    List<String> found,
    Set<Source> more,
    Set<Source> less,
    Set<Source> otherwise) {

  /** A source has changed if its standard uncertainty did by more than this share. */
  private static final double CHANGED = 0.1;

  /** A source that makes up less than this of a squared uncertainty is not what changed it. */
  private static final double LEADING = 0.2;

  /** What a recording path leaves is beside every model, and no part of the coil. */
  private static final String DEPARTURES = "departures";

  /**
   * Compares two results.
   *
   * @param before as result files hold it; what cannot be read tells nothing
   * @param now likewise
   */
  public static ResultChange of(String before, String now) {
    Map<String, Object> then = parsed(before);
    Map<String, Object> here = parsed(now);
    Set<String> old = model(then);
    Set<String> other = model(here);
    boolean both = !old.isEmpty() && !other.isEmpty();
    Map<String, String> said = findings(then);
    Map<String, String> says = findings(here);
    Set<Source> more = new TreeSet<>();
    Set<Source> less = new TreeSet<>();
    sources(budgets(then), budgets(here), more, less);
    Set<Source> otherwise = new TreeSet<>(more);
    otherwise.retainAll(less);
    more.removeAll(otherwise);
    less.removeAll(otherwise);
    return new ResultChange(
        both ? without(old, other) : List.of(),
        both ? without(other, old) : List.of(),
        texts(said, says.keySet()),
        texts(says, said.keySet()),
        more,
        less,
        otherwise);
  }

  private static Map<String, Object> parsed(String result) {
    try {
      return JsonFile.parse(result, "result", Refusal::new);
    } catch (Refusal notReadAnyMore) {
      return Map.of();
    }
  }

  private static List<String> without(Set<String> all, Set<String> common) {
    return all.stream().filter(part -> !common.contains(part)).toList();
  }

  private static List<String> texts(Map<String, String> byCode, Set<String> known) {
    return byCode.entrySet().stream()
        .filter(e -> !known.contains(e.getKey()))
        .map(Map.Entry::getValue)
        .toList();
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

  private static void sources(
      Map<String, Map<Source, Double>> then,
      Map<String, Map<Source, Double>> here,
      Set<Source> more,
      Set<Source> less) {
    here.forEach(
        (number, squares) -> {
          Map<Source, Double> old = then.getOrDefault(number, Map.of());
          double whole = Math.max(sum(squares), sum(old));
          for (Source source : old.isEmpty() ? new Source[0] : Source.values()) {
            double a = old.getOrDefault(source, 0.0);
            double b = squares.getOrDefault(source, 0.0);
            if (Math.max(a, b) > LEADING * whole
                && Math.abs(Math.sqrt(b) - Math.sqrt(a)) > CHANGED * Math.sqrt(Math.max(a, b))) {
              (b > a ? more : less).add(source);
            }
          }
        });
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
