package org.trebleproof.report.file;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.json.JsonWriter;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Finding;

/**
 * A result for another program, made of maps, lists, texts and numbers. A number that is none is
 * null.
 */
final class JsonTree {
  private JsonTree() {}

  /** The tree's text, ending in a line feed. */
  static String text(Map<String, Object> tree) {
    return JsonWriter.file(json -> json.value(tree));
  }

  /** Keys and values in turn. */
  static Map<String, Object> object(Object... pairs) {
    Map<String, Object> map = new LinkedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      map.put((String) pairs[i], pairs[i + 1]);
    }
    return map;
  }

  static Map<String, Object> of(Estimate estimate) {
    return object(
        "unit",
        estimate.unit().code(),
        "value",
        estimate.value(),
        "low",
        estimate.low(),
        "high",
        estimate.high(),
        "known",
        estimate.known().word());
  }

  static List<Map<String, Object>> of(List<Finding> findings) {
    return findings.stream()
        .map(
            f ->
                object(
                    "severity",
                    f.severity().word(),
                    "code",
                    f.code().key(),
                    "text",
                    f.text(),
                    "evidence",
                    f.evidence(),
                    "next",
                    f.next()))
        .toList();
  }
}
