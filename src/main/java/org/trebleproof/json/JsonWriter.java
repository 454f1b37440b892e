package org.trebleproof.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.PrettyPrinter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import com.fasterxml.jackson.core.util.Separators;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * Writes JSON, the only one who does. An object or an array is opened, filled and ended; within an
 * object everything has a key. A number that is none, or infinite, is null.
 */
public final class JsonWriter {

  /** Doubles up to here have a place for every whole number. */
  private static final double LARGEST_WHOLE = 1e15;

  private final JsonGenerator generator;

  private JsonWriter(JsonGenerator generator) {
    this.generator = generator;
  }

  /** A file that people may read: a line for each key, and a line feed at the end. */
  public static String file(Consumer<JsonWriter> content) {
    return text(new DefaultPrettyPrinter(), content) + "\n";
  }

  /** A line as a person would write it. */
  public static String line(Consumer<JsonWriter> content) {
    DefaultPrettyPrinter spaced =
        new DefaultPrettyPrinter(
            Separators.createDefaultInstance()
                .withObjectFieldValueSpacing(Separators.Spacing.AFTER)
                .withObjectEntrySpacing(Separators.Spacing.AFTER)
                .withArrayValueSpacing(Separators.Spacing.AFTER));
    spaced.indentObjectsWith(DefaultPrettyPrinter.NopIndenter.instance);
    spaced.indentArraysWith(DefaultPrettyPrinter.NopIndenter.instance);
    return text(spaced, content);
  }

  /** No character more than it takes. */
  public static String dense(Consumer<JsonWriter> content) {
    return text(null, content);
  }

  private static String text(PrettyPrinter layout, Consumer<JsonWriter> content) {
    StringWriter text = new StringWriter(1 << 14);
    try (JsonGenerator generator = new JsonFactory().createGenerator(text)) {
      if (layout != null) {
        generator.setPrettyPrinter(layout);
      }
      content.accept(new JsonWriter(generator));
    } catch (IOException e) {
      throw impossible(e);
    }
    return text.toString();
  }

  private static UncheckedIOException impossible(IOException e) {
    return new UncheckedIOException(e); // a StringWriter does not fail
  }

  /** Opens an object. */
  public void object() {
    try {
      generator.writeStartObject();
    } catch (IOException e) {
      throw impossible(e);
    }
  }

  /** Opens an array. */
  public void array() {
    try {
      generator.writeStartArray();
    } catch (IOException e) {
      throw impossible(e);
    }
  }

  /** Ends what was opened last. */
  public void end() {
    try {
      if (generator.getOutputContext().inArray()) {
        generator.writeEndArray();
      } else {
        generator.writeEndObject();
      }
    } catch (IOException e) {
      throw impossible(e);
    }
  }

  /** The key of what comes next. */
  public void key(String key) {
    try {
      generator.writeFieldName(key);
    } catch (IOException e) {
      throw impossible(e);
    }
  }

  /** A text, a whole number, a double, a truth value or nothing. */
  private void scalar(Object value) {
    try {
      if (value instanceof Integer || value instanceof Long) {
        generator.writeNumber(((Number) value).longValue());
      } else if (value instanceof Double number) {
        if (Double.isFinite(number)) {
          generator.writeNumber(number);
        } else {
          generator.writeNull();
        }
      } else if (value instanceof Boolean flag) {
        generator.writeBoolean(flag);
      } else if (value == null) {
        generator.writeNull();
      } else {
        generator.writeString(value.toString());
      }
    } catch (IOException e) {
      throw impossible(e);
    }
  }

  /** Opens an object under a key. */
  public void object(String key) {
    key(key);
    object();
  }

  /** Opens an array under a key. */
  public void array(String key) {
    key(key);
    array();
  }

  /** A text in an array. */
  public void text(String value) {
    scalar(value);
  }

  /** A text. */
  public void text(String key, String value) {
    key(key);
    scalar(value);
  }

  /** A number in an array. */
  public void number(double value) {
    scalar(value);
  }

  /** A number. */
  public void number(String key, double value) {
    key(key);
    scalar(value);
  }

  /** A whole number. */
  public void number(String key, long value) {
    key(key);
    scalar(value);
  }

  /** A truth value. */
  public void flag(String key, boolean value) {
    key(key);
    scalar(value);
  }

  /** A key without a value: null. */
  public void nothing(String key) {
    key(key);
    scalar(null);
  }

  /** An array of numbers. */
  public void numbers(String key, double[] values) {
    key(key);
    numbers(values);
  }

  /** An array of numbers in an array. */
  public void numbers(double[] values) {
    array();
    for (double value : values) {
      scalar(value);
    }
    end();
  }

  /** An array of texts. */
  public void texts(String key, Iterable<String> values) {
    array(key);
    for (String value : values) {
      scalar(value);
    }
    end();
  }

  /**
   * A value made of maps, lists, arrays of numbers, texts, numbers and truth values; what is empty
   * is null.
   */
  public void value(Object value) {
    value(value, false);
  }

  /** The same as {@link JsonFile} reads it: whole numbers, which it keeps as doubles, are whole. */
  public void content(Map<String, Object> content) {
    value(content, true);
  }

  private void value(Object value, boolean whole) {
    if (value instanceof Optional<?> optional) {
      value(optional.orElse(null), whole);
    } else if (value instanceof Map<?, ?> map) {
      object();
      for (Map.Entry<?, ?> entry : map.entrySet()) {
        key(String.valueOf(entry.getKey()));
        value(entry.getValue(), whole);
      }
      end();
    } else if (value instanceof Iterable<?> list) {
      array();
      for (Object item : list) {
        value(item, whole);
      }
      end();
    } else if (value instanceof double[] numbers) {
      numbers(numbers);
    } else if (whole && value instanceof Double real && isWhole(real)) {
      scalar(real.longValue());
    } else {
      scalar(value);
    }
  }

  private static boolean isWhole(double real) {
    return real == Math.rint(real) && Math.abs(real) < LARGEST_WHOLE;
  }
}
