package conewise.simulator.world;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.DeserializationContext;
import com.fasterxml.jackson.databind.deser.std.StdDeserializer;
import conewise.simulator.box.Wiring;
import conewise.simulator.box.Wiring.CoilLeads;
import conewise.simulator.box.Wiring.CoilState;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Reads a wiring: "left.1" is a coil, "left.1 reversed", "left.1 open" and "left.1 shorted" are its
 * faults, "open" and "link" are what they say, {series: [...]} and {parallel: [...]} are trees, and
 * {resistance_ohm: ...}, {inductance_millihenry: ...} and {capacitance_microfarad: ..., series_ohm:
 * ...} are parts.
 */
final class WiringReader extends StdDeserializer<Wiring> {
  private static final long serialVersionUID = 1;
  private static final int DEEPEST = 20;
  private static final Pattern COIL =
      Pattern.compile("([a-z][a-z0-9_]*)(?:\\.([1-9]))?( reversed)?( open| shorted)?");
  private static final String FORMS =
      "a coil such as \"left.1\" or \"left.2 reversed\", \"open\", \"link\", or one of the keys"
          + " series, parallel, resistance_ohm, inductance_millihenry, capacitance_microfarad with"
          + " series_ohm";

  WiringReader() {
    super(Wiring.class);
  }

  @Override
  public Wiring deserialize(JsonParser parser, DeserializationContext context) throws IOException {
    return read(parser, context, 0);
  }

  private Wiring read(JsonParser parser, DeserializationContext context, int depth)
      throws IOException {
    if (depth > DEEPEST) {
      return context.reportInputMismatch(this, "the wiring is nested deeper than %s", DEEPEST);
    }
    if (parser.currentToken() == JsonToken.VALUE_STRING) {
      return leaf(parser.getText(), context);
    } else if (parser.currentToken() != JsonToken.START_OBJECT) {
      return context.reportInputMismatch(
          this, "a wiring holds \"%s\"; it must be %s", parser.getText(), FORMS);
    }
    Map<String, Double> values = new LinkedHashMap<>();
    Wiring tree = null;
    while (parser.nextToken() == JsonToken.FIELD_NAME) {
      String key = parser.currentName();
      parser.nextToken();
      if (key.equals("series") || key.equals("parallel")) {
        List<Wiring> parts = parts(parser, context, key, depth);
        tree = key.equals("series") ? new Wiring.Series(parts) : new Wiring.Parallel(parts);
      } else {
        values.put(key, number(parser, context, key));
      }
    }
    if (tree != null && values.isEmpty()) {
      return tree;
    }
    return tree == null ? part(values, context) : mixed(context);
  }

  private Wiring mixed(DeserializationContext context) throws IOException {
    return context.reportInputMismatch(
        this, "\"series\" or \"parallel\" stands beside another key; it must stand alone");
  }

  private List<Wiring> parts(
      JsonParser parser, DeserializationContext context, String key, int depth) throws IOException {
    if (parser.currentToken() != JsonToken.START_ARRAY) {
      context.reportInputMismatch(this, "\"%s\" must be a list of parts", key);
    }
    List<Wiring> parts = new ArrayList<>();
    while (parser.nextToken() != JsonToken.END_ARRAY) {
      parts.add(read(parser, context, depth + 1));
    }
    if (parts.isEmpty()) {
      context.reportInputMismatch(this, "\"%s\" is empty; it needs at least one part", key);
    }
    return parts;
  }

  private double number(JsonParser parser, DeserializationContext context, String key)
      throws IOException {
    if (!parser.currentToken().isNumeric()) {
      context.reportInputMismatch(
          this, "\"%s\" in a wiring holds \"%s\"; it must be a number", key, parser.getText());
    }
    return parser.getDoubleValue();
  }

  private Wiring part(Map<String, Double> values, DeserializationContext context)
      throws IOException {
    if (values.keySet().equals(java.util.Set.of("resistance_ohm"))) {
      return new Wiring.Resistance(values.get("resistance_ohm"));
    } else if (values.keySet().equals(java.util.Set.of("inductance_millihenry"))) {
      return new Wiring.Inductor(values.get("inductance_millihenry") / 1000);
    } else if (values.keySet().equals(java.util.Set.of("capacitance_microfarad", "series_ohm"))) {
      return new Wiring.Capacitor(
          values.get("capacitance_microfarad") / 1e6, values.get("series_ohm"));
    }
    return context.reportInputMismatch(
        this, "a wiring has the keys %s; it must be %s", values.keySet(), FORMS);
  }

  private Wiring leaf(String text, DeserializationContext context) throws IOException {
    if (text.equals("open")) {
      return new Wiring.OpenCircuit();
    } else if (text.equals("link")) {
      return new Wiring.Link();
    }
    Matcher words = COIL.matcher(text);
    if (!words.matches()) {
      return context.reportInputMismatch(this, "a wiring holds \"%s\"; it must be %s", text, FORMS);
    }
    int number = words.group(2) == null ? 1 : Integer.parseInt(words.group(2));
    CoilState state = CoilState.SOUND;
    if (words.group(4) != null) {
      state = words.group(4).equals(" open") ? CoilState.OPEN : CoilState.SHORTED;
    }
    return new CoilLeads(words.group(1), number, words.group(3) != null, state);
  }
}
