package org.trebleproof.json;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParseException;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import org.trebleproof.file.GivenFile;
import org.trebleproof.file.KnownContent;
import org.trebleproof.quantity.Refusal;

/** Reads a small JSON file whole; syntax errors are said with line and column. */
public final class JsonFile {

  /** The version of every file format of the program; the first key of each. */
  public static final String VERSION_KEY = "trebleproof";

  private static final int VERSION = 1;
  private static final long LARGEST = 4_000_000;
  private static final int DEEPEST = 32;

  private JsonFile() {}

  /**
   * Reads a file whose top is an object, and checks its format version.
   *
   * @param what what the file should be, such as "job file"
   * @param refusal makes the exception from a sentence
   */
  public static JsonSection read(
      Path file, String what, Function<String, ? extends Refusal> refusal) {
    Path name = file.getFileName() == null ? file : file.getFileName();
    Function<String, Refusal> named = words -> refusal.apply(name + ": " + words);
    String text = text(file, what, named);
    return section(parse(text, name.toString(), refusal), what, named);
  }

  /**
   * Content that came from no file, as if it stood in one.
   *
   * @param name of the file it would be, for sentences
   * @param content texts, doubles, booleans, lists and maps
   */
  public static JsonSection of(
      String name,
      Map<String, Object> content,
      String what,
      Function<String, ? extends Refusal> refusal) {
    return section(content, what, words -> refusal.apply(name + ": " + words));
  }

  private static JsonSection section(
      Map<String, Object> content, String what, Function<String, ? extends Refusal> refusal) {
    JsonSection top = new JsonSection("", content, refusal);
    if (!top.has(VERSION_KEY)) {
      throw top.refuse(
          "is no "
              + what
              + ": its first key must be \""
              + VERSION_KEY
              + "\": "
              + VERSION
              + ", the version of the format.");
    }
    if (top.whole(VERSION_KEY, VERSION, 0, Integer.MAX_VALUE) != VERSION) {
      throw top.wrong(
          VERSION_KEY, "must be " + VERSION + ", the version of the format that is known here.");
    }
    return top;
  }

  private static String text(Path file, String what, Function<String, Refusal> refusal) {
    Path from =
        GivenFile.readable(
            file,
            words ->
                refusal.apply(
                    words.startsWith("is a folder")
                        ? "is a folder: name the " + what + " in it."
                        : words));
    KnownContent.of(from)
        .ifPresent(
            kind -> {
              throw refusal.apply(
                  kind.isRead()
                      ? "is a recording (" + kind.words() + ") and no " + what + "."
                      : kind.exportIt());
            });
    try {
      if (Files.size(from) > LARGEST) {
        throw refusal.apply("is far too large for a " + what + ": check the name.");
      }
      byte[] bytes = Files.readAllBytes(from);
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return text.startsWith("\ufeff") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw refusal.apply("is no text in UTF-8: save it again as UTF-8.");
    } catch (IOException e) {
      throw refusal.apply("could not be read: check its permissions.");
    }
  }

  /** Text that lay in no file of its own, as if it stood in one of that name. */
  public static Map<String, Object> parse(
      String text, String name, Function<String, ? extends Refusal> refusal) {
    JsonFactory factory =
        JsonFactory.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .streamReadConstraints(StreamReadConstraints.builder().maxNestingDepth(DEEPEST).build())
            .build();
    try (JsonParser parser = factory.createParser(text)) {
      JsonToken first = parser.nextToken();
      if (first == null) {
        throw refusal.apply(name + ": is empty: write it anew.");
      }
      Object top = value(parser, first);
      if (!(top instanceof Map<?, ?>)) {
        throw refusal.apply(name + ": must be an object in braces { }.");
      }
      if (parser.nextToken() != null) {
        throw new JsonParseException(parser, "there is more text after the closing brace");
      }
      Map<String, Object> content = new LinkedHashMap<>();
      ((Map<?, ?>) top).forEach((key, value) -> content.put((String) key, value));
      return content;
    } catch (JsonProcessingException e) {
      throw refusal.apply(syntax(e, text, name));
    } catch (IOException e) {
      throw refusal.apply(name + ": could not be read: check its permissions.");
    }
  }

  private static Object value(JsonParser parser, JsonToken token) throws IOException {
    return switch (token) {
      case START_OBJECT -> {
        Map<String, Object> map = new LinkedHashMap<>();
        while (parser.nextToken() != JsonToken.END_OBJECT) {
          String key = parser.currentName();
          map.put(key, value(parser, parser.nextToken()));
        }
        yield map;
      }
      case START_ARRAY -> {
        List<Object> list = new ArrayList<>();
        for (JsonToken t = parser.nextToken(); t != JsonToken.END_ARRAY; t = parser.nextToken()) {
          list.add(value(parser, t));
        }
        yield list;
      }
      case VALUE_STRING -> parser.getText();
      case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> Double.valueOf(parser.getText());
      case VALUE_TRUE -> Boolean.TRUE;
      case VALUE_FALSE -> Boolean.FALSE;
      case VALUE_NULL -> null;
      default -> throw new JsonParseException(parser, "the text ends too early");
    };
  }

  private static String syntax(JsonProcessingException e, String text, String name) {
    String place = name;
    String words = e.getOriginalMessage().strip().replaceAll("\\s+", " ");
    if (e.getLocation() != null) {
      place +=
          ", line " + e.getLocation().getLineNr() + ", column " + e.getLocation().getColumnNr();
      long at = e.getLocation().getCharOffset();
      if (words.startsWith("Unexpected end-of-input")) {
        words = "the text ends before its last closing bracket";
      } else if (words.startsWith("Duplicate field")) {
        words = words.replace("Duplicate field", "the key") + " stands there twice";
      } else if (afterComma(text, at)) {
        words = "a comma stands before a closing bracket";
      }
    }
    if (words.length() > 160) {
      words = words.substring(0, 157) + "...";
    }
    return place + ": this is no valid JSON (" + words + "); correct it there.";
  }

  /** Whether the character at or just before an offset closes a bracket right after a comma. */
  private static boolean afterComma(String text, long offset) {
    for (int at = (int) Math.max(0, offset - 1); at <= offset && at < text.length(); at++) {
      if (text.charAt(at) == '}' || text.charAt(at) == ']') {
        int before = at - 1;
        while (before >= 0 && Character.isWhitespace(text.charAt(before))) {
          before--;
        }
        return before >= 0 && text.charAt(before) == ',';
      }
    }
    return false;
  }
}
