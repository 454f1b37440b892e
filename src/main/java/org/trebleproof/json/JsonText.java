package org.trebleproof.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;

/** Writes texts, numbers, truth values, lists and maps as JSON, to be read by people too. */
public final class JsonText {

  private JsonText() {}

  /** The text, ending in a line feed. */
  public static String of(Map<String, Object> content) {
    StringWriter text = new StringWriter();
    try (JsonGenerator json = new JsonFactory().createGenerator(text)) {
      json.setPrettyPrinter(new DefaultPrettyPrinter());
      write(json, content);
      json.writeRaw('\n');
    } catch (IOException impossible) {
      throw new UncheckedIOException(impossible); // a StringWriter does not fail
    }
    return text.toString();
  }

  private static void write(JsonGenerator json, Object value) throws IOException {
    if (value instanceof Map<?, ?> map) {
      json.writeStartObject();
      for (Map.Entry<?, ?> entry : map.entrySet()) {
        json.writeFieldName(String.valueOf(entry.getKey()));
        write(json, entry.getValue());
      }
      json.writeEndObject();
    } else if (value instanceof List<?> list) {
      json.writeStartArray();
      for (Object entry : list) {
        write(json, entry);
      }
      json.writeEndArray();
    } else if (value instanceof Number number) {
      double real = number.doubleValue();
      if (real == Math.rint(real) && Math.abs(real) < 1e15) {
        json.writeNumber((long) real);
      } else {
        json.writeNumber(real);
      }
    } else if (value instanceof Boolean truth) {
      json.writeBoolean(truth);
    } else if (value == null) {
      json.writeNull();
    } else {
      json.writeString(value.toString());
    }
  }
}
