package org.trebleproof.report.file;

import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;

/** Holds JSON to a published schema, as far as that uses these few words. */
final class SchemaCheck {
  private final JsonNode schema;

  SchemaCheck(JsonNode schema) {
    this.schema = schema;
  }

  void check(JsonNode value, String place) {
    check(value, schema, place);
  }

  /** Against one of the schema's definitions. */
  void checkAs(String definition, JsonNode value) {
    check(value, schema.at("/$defs/" + definition), definition);
  }

  void check(JsonNode value, JsonNode given, String place) {
    JsonNode rule = given;
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
                JsonNode named = known.path("properties").get(field.getKey());
                JsonNode others = known.get("additionalProperties");
                JsonNode inner =
                    named != null || others == null || !others.isObject() ? named : others;
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
    return type.isArray()
        ? contains(type, com.fasterxml.jackson.databind.node.TextNode.valueOf(name))
        : type.asText().equals(name);
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
