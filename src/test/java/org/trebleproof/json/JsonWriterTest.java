package org.trebleproof.json;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.quantity.Refusal;

/** What is written, as another reader of JSON reads it. */
class JsonWriterTest {

  /** Quotes, a backslash, controls, marks beyond the basic plane, and what HTML would read. */
  private static final String AWKWARD =
      "No. 3 \"hot\" \\ a/b\n\t\u0001 \u00e9 \ud83c\udfb8 </script>";

  @TempDir Path folder;

  private static void all(JsonWriter json) {
    json.object();
    json.text(AWKWARD, AWKWARD);
    json.number("third", 1 / 3.0);
    json.number("none", Double.NaN);
    json.number("open", Double.POSITIVE_INFINITY);
    json.number("count", 3);
    json.flag("flag", true);
    json.nothing("nothing");
    json.numbers("numbers", new double[] {1, Double.NaN, -2e-12});
    json.texts("texts", List.of("a", AWKWARD));
    json.array("nested");
    json.object();
    json.end();
    json.numbers(new double[0]);
    json.end();
    json.key("tree");
    json.value(Map.of("list", List.of(1, "b", 2.5, Optional.empty(), new double[] {4})));
    json.end();
  }

  @Test
  void anotherReaderReadsTheSameInEveryLayout() throws IOException {
    String file = JsonWriter.file(JsonWriterTest::all);
    String line = JsonWriter.line(JsonWriterTest::all);
    String dense = JsonWriter.dense(JsonWriterTest::all);
    JsonNode read = new ObjectMapper().readTree(file);
    assertEquals(read, new ObjectMapper().readTree(line));
    assertEquals(read, new ObjectMapper().readTree(dense));
    assertTrue(file.endsWith("}\n") && file.lines().count() > 10, file);
    assertTrue(line.lines().count() == 1 && dense.length() < line.length(), line);
    assertEquals(AWKWARD, read.get(AWKWARD).asText());
    assertEquals(1 / 3.0, read.get("third").asDouble(), 0);
    assertTrue(read.get("none").isNull() && read.get("open").isNull());
    assertTrue(read.get("nothing").isNull() && read.get("flag").isBoolean());
    assertTrue(read.get("count").isIntegralNumber());
    assertEquals("[1.0,null,-2.0E-12]", read.get("numbers").toString());
    assertEquals(AWKWARD, read.get("texts").get(1).asText());
    assertEquals("[{},[]]", read.get("nested").toString());
    assertEquals("[1,\"b\",2.5,null,[4.0]]", read.get("tree").get("list").toString());
  }

  @Test
  void aLineIsSpacedAsAPersonWritesIt() {
    String line =
        JsonWriter.line(
            json -> {
              json.object();
              json.text("id", "b");
              json.texts("across", List.of("a", "b"));
              json.end();
            });
    assertEquals("{\"id\": \"b\", \"across\": [\"a\", \"b\"]}", line);
  }

  /** A file that was read and is written again keeps its whole numbers whole. */
  @Test
  void contentIsWrittenAsItWasRead() throws IOException {
    Path file = folder.resolve("a.json");
    String text = "{\"trebleproof\":1,\"a\":[2,2.5,-3,true,null],\"b\":{\"c\":\"d\"}}";
    Files.writeString(file, text);
    Map<String, Object> content = JsonFile.read(file, "file", Refusal::new).content();
    assertEquals(text, JsonWriter.dense(json -> json.content(content)));
  }
}
