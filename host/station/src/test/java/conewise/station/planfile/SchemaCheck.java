package conewise.station.planfile;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashMap;
import java.util.Iterator;
import java.util.Map;
import java.util.regex.Pattern;

/** The few words of JSON Schema (draft 2020-12) that the plan's schema uses, and no others. */
final class SchemaCheck {

  private final JsonNode root;
  private final Map<String, Pattern> patterns = new HashMap<>();

  SchemaCheck(JsonNode root) {
    this.root = root;
  }

  boolean accepts(JsonNode value) {
    return accepts(root, value);
  }

  private boolean accepts(JsonNode schema, JsonNode value) {
    if (schema.isBoolean()) {
      return schema.asBoolean();
    }
    for (Map.Entry<String, JsonNode> word : schema.properties()) {
      if (!accepts(schema, word.getKey(), word.getValue(), value)) {
        return false;
      }
    }
    return true;
  }

  private boolean accepts(JsonNode schema, String word, JsonNode rule, JsonNode value) {
    return switch (word) {
      case "$schema", "$id", "$defs", "title", "description" -> true;
      case "$ref" -> accepts(root.at(rule.asText().substring(1)), value);
      case "anyOf" -> any(rule, value);
      case "enum" -> contains(rule, value);
      case "type" -> isOfType(rule.asText(), value);
      case "minimum" -> !value.isNumber() || value.asDouble() >= rule.asDouble();
      case "maximum" -> !value.isNumber() || value.asDouble() <= rule.asDouble();
      case "minLength" -> !value.isTextual() || value.asText().length() >= rule.asInt();
      case "maxLength" -> !value.isTextual() || value.asText().length() <= rule.asInt();
      case "pattern" -> !value.isTextual() || pattern(rule.asText()).matcher(value.asText()).find();
      case "minItems" -> !value.isArray() || value.size() >= rule.asInt();
      case "maxItems" -> !value.isArray() || value.size() <= rule.asInt();
      case "minProperties" -> !value.isObject() || value.size() >= rule.asInt();
      case "maxProperties" -> !value.isObject() || value.size() <= rule.asInt();
      case "items" -> !value.isArray() || all(rule, value.elements());
      case "required" -> !value.isObject() || hasAll(rule, value);
      case "properties" -> !value.isObject() || eachAccepted(rule, value);
      case "additionalProperties" -> !value.isObject() || othersAccepted(schema, rule, value);
      default -> throw new IllegalArgumentException("the check does not know the word " + word);
    };
  }

  private Pattern pattern(String text) {
    return patterns.computeIfAbsent(text, Pattern::compile);
  }

  private static boolean isOfType(String type, JsonNode value) {
    return switch (type) {
      case "object" -> value.isObject();
      case "array" -> value.isArray();
      case "string" -> value.isTextual();
      case "number" -> value.isNumber();
      case "integer" -> value.isNumber() && value.asDouble() == Math.rint(value.asDouble());
      default -> throw new IllegalArgumentException("the check does not know the type " + type);
    };
  }

  private boolean any(JsonNode schemas, JsonNode value) {
    for (JsonNode schema : schemas) {
      if (accepts(schema, value)) {
        return true;
      }
    }
    return false;
  }

  private static boolean contains(JsonNode values, JsonNode value) {
    for (JsonNode allowed : values) {
      if (allowed.equals(value)) {
        return true;
      }
    }
    return false;
  }

  private boolean all(JsonNode schema, Iterator<JsonNode> values) {
    boolean good = true;
    while (values.hasNext()) {
      good &= accepts(schema, values.next());
    }
    return good;
  }

  private static boolean hasAll(JsonNode names, JsonNode value) {
    for (JsonNode name : names) {
      if (!value.has(name.asText())) {
        return false;
      }
    }
    return true;
  }

  private boolean eachAccepted(JsonNode schemas, JsonNode value) {
    for (Map.Entry<String, JsonNode> entry : schemas.properties()) {
      JsonNode part = value.get(entry.getKey());
      if (part != null && !accepts(entry.getValue(), part)) {
        return false;
      }
    }
    return true;
  }

  private boolean othersAccepted(JsonNode schema, JsonNode rule, JsonNode value) {
    for (Map.Entry<String, JsonNode> entry : value.properties()) {
      boolean named = schema.has("properties") && schema.get("properties").has(entry.getKey());
      if (!named && !accepts(rule, entry.getValue())) {
        return false;
      }
    }
    return true;
  }
}
