package org.trebleproof.report;

import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.TextNode;
import java.io.IOException;
import java.io.InputStream;

/** A published schema, as far as it uses these few words, to hold files to. */
public final class PublishedSchema {

  private final ObjectMapper mapper = new ObjectMapper();
  private final JsonNode schema;

  /** Reads a schema of the program. */
  public PublishedSchema(String name) throws IOException {
    try (InputStream in = getClass().getResourceAsStream("/org/trebleproof/" + name)) {
      schema = mapper.readTree(in);
    }
  }

  /** Fails where a text does not follow the schema. */
  public void hold(String text) throws IOException {
    check(mapper.readTree(text), schema, "result");
  }

  private void check(JsonNode value, JsonNode rule, String place) {
    if (rule.has("$ref")) {
      rule = schema.at(rule.get("$ref").asText().substring(1));
    }
    if (rule.has("const")) {
      assertTrue(rule.get("const").equals(value), place + " is " + value);
    }
    if (rule.has("enum")) {
      assertTrue(contains(rule.get("enum"), value), place + " is " + value);
    }
    if (rule.has("type")) {
      JsonNode type = rule.get("type");
      String own = typeOf(value);
      boolean whole = own.equals("number") && value.isIntegralNumber();
      assertTrue(
          isOf(type, own) || whole && isOf(type, "integer"), place + " is a " + own + ": " + value);
    }
    if (value.isObject()) {
      for (JsonNode key : rule.withArray("/required")) {
        assertTrue(value.has(key.asText()), place + " lacks " + key);
      }
      JsonNode known = rule;
      value
          .fields()
          .forEachRemaining(
              field -> {
                JsonNode inner = known.path("properties").get(field.getKey());
                assertTrue(inner != null, place + " has an unknown key " + field.getKey());
                check(field.getValue(), inner, place + "." + field.getKey());
              });
    } else if (value.isArray()) {
      for (int i = 0; i < value.size(); i++) {
        check(value.get(i), rule.get("items"), place + "[" + i + "]");
      }
    }
  }

  private static boolean isOf(JsonNode type, String name) {
    return type.isArray() ? contains(type, TextNode.valueOf(name)) : type.asText().equals(name);
  }

  private static boolean contains(JsonNode list, JsonNode value) {
    for (JsonNode each : list) {
      if (each.equals(value)) {
        return true;
      }
    }
    return false;
  }

  private static String typeOf(JsonNode value) {
    return switch (value.getNodeType()) {
      case STRING -> "string";
      case NUMBER -> "number";
      case BOOLEAN -> "boolean";
      case NULL -> "null";
      case ARRAY -> "array";
      default -> "object";
    };
  }
}
