package org.trebleproof.report.file;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
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
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.setPrettyPrinter(new DefaultPrettyPrinter());
      write(json, tree);
      json.writeRaw('\n');
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible); // a StringWriter does not fail
    }
    return text.toString();
  }

  private static void write(JsonGenerator json, Object value) throws IOException {
    if (value instanceof Optional<?> optional) {
      write(json, optional.orElse(null));
    } else if (value instanceof Map<?, ?> map) {
      json.writeStartObject();
      for (Map.Entry<?, ?> entry : map.entrySet()) {
        json.writeFieldName((String) entry.getKey());
        write(json, entry.getValue());
      }
      json.writeEndObject();
    } else if (value instanceof List<?> list) {
      json.writeStartArray();
      for (Object item : list) {
        write(json, item);
      }
      json.writeEndArray();
    } else if (value instanceof double[] numbers) {
      json.writeStartArray();
      for (double number : numbers) {
        write(json, number);
      }
      json.writeEndArray();
    } else if (value instanceof Double number) {
      if (Double.isFinite(number)) {
        json.writeNumber(number);
      } else {
        json.writeNull();
      }
    } else if (value instanceof Integer number) {
      json.writeNumber(number);
    } else if (value instanceof Boolean flag) {
      json.writeBoolean(flag);
    } else if (value == null) {
      json.writeNull();
    } else {
      json.writeString(value.toString());
    }
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
