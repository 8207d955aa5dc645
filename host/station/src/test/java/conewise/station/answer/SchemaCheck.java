package conewise.station.answer;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Checks a JSON value against the part of JSON Schema that our schemas use. An unknown keyword is
 * an error, so a schema cannot ask for something that is silently not checked.
 */
public final class SchemaCheck {
  private final JsonNode root;

  private SchemaCheck(JsonNode root) {
    this.root = root;
  }

  /** The schema in docs/schemas of the repository. */
  public static SchemaCheck named(String name) throws IOException {
    Path file = Path.of("..", "..", "docs", "schemas", name + ".json");
    return of(new ObjectMapper().readTree(file.toFile()));
  }

  static SchemaCheck of(JsonNode schema) {
    return new SchemaCheck(schema);
  }

  /** What is wrong with a value; empty when nothing is. */
  public List<String> problems(JsonNode value) {
    List<String> problems = new ArrayList<>();
    check(root, value, "$", problems);
    return problems;
  }

  private void check(JsonNode schema, JsonNode value, String at, List<String> problems) {
    for (var rule : schema.properties()) {
      JsonNode given = rule.getValue();
      switch (rule.getKey()) {
        case "$schema", "$id", "title", "description", "$defs" -> {}
        case "$ref" -> check(referred(given.asText()), value, at, problems);
        case "oneOf" -> oneOf(given, value, at, problems);
        case "const" -> require(same(given, value), at + " is not " + given, problems);
        case "enum" -> require(anySame(given, value), at + " is " + value, problems);
        case "type" -> require(isType(given.asText(), value), at + " is no " + given, problems);
        case "minimum" ->
            require(value.asDouble() >= given.asDouble(), at + " is " + value, problems);
        case "maximum" ->
            require(value.asDouble() <= given.asDouble(), at + " is " + value, problems);
        case "minLength" ->
            require(value.asText().length() >= given.asInt(), at + " is too short", problems);
        case "required" ->
            given.forEach(key -> require(value.has(key.asText()), at + " lacks " + key, problems));
        case "properties" -> properties(given, value, at, problems);
        case "additionalProperties" -> noOthers(schema, value, at, problems);
        case "items" -> {
          for (int i = 0; i < value.size(); i++) {
            check(given, value.get(i), at + "[" + i + "]", problems);
          }
        }
        default -> throw new IllegalArgumentException("unknown keyword " + rule.getKey());
      }
    }
  }

  private JsonNode referred(String reference) {
    return root.at(reference.substring(1));
  }

  private void oneOf(JsonNode choices, JsonNode value, String at, List<String> problems) {
    int fitting = 0;
    List<String> why = new ArrayList<>();
    for (JsonNode choice : choices) {
      List<String> here = new ArrayList<>();
      check(choice, value, at, here);
      fitting += here.isEmpty() ? 1 : 0;
      why.addAll(here);
    }
    require(fitting == 1, at + " fits " + fitting + " of the choices: " + why, problems);
  }

  private void properties(JsonNode rules, JsonNode value, String at, List<String> problems) {
    for (var property : rules.properties()) {
      if (value.has(property.getKey())) {
        String where = at + "." + property.getKey();
        check(property.getValue(), value.get(property.getKey()), where, problems);
      }
    }
  }

  private static void noOthers(JsonNode schema, JsonNode value, String at, List<String> problems) {
    if (schema.get("additionalProperties").asBoolean()) {
      throw new IllegalArgumentException("additionalProperties can only be false here");
    }
    value
        .fieldNames()
        .forEachRemaining(
            key ->
                require(schema.get("properties").has(key), at + " has unknown " + key, problems));
  }

  private static boolean same(JsonNode expected, JsonNode value) {
    return (expected.isNumber() && value.isNumber())
        ? expected.asDouble() == value.asDouble()
        : expected.equals(value);
  }

  private static boolean anySame(JsonNode allowed, JsonNode value) {
    for (JsonNode each : allowed) {
      if (same(each, value)) {
        return true;
      }
    }
    return false;
  }

  private static boolean isType(String type, JsonNode value) {
    return switch (type) {
      case "object" -> value.isObject();
      case "array" -> value.isArray();
      case "string" -> value.isTextual();
      case "number" -> value.isNumber();
      case "integer" -> value.isIntegralNumber();
      case "boolean" -> value.isBoolean();
      default -> throw new IllegalArgumentException("unknown type " + type);
    };
  }

  private static void require(boolean fine, String problem, List<String> problems) {
    if (!fine) {
      problems.add(problem);
    }
  }
}
