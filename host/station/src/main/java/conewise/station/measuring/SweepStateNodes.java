package conewise.station.measuring;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.jig.sweep.SelfCheckReport;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepState;
import conewise.jig.sweep.ToneReading;
import conewise.protocol.Detail;
import conewise.protocol.Fields;
import conewise.protocol.JigIdentity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A sweep's state as JSON and back; what is missing or absurd is an IllegalArgumentException. */
final class SweepStateNodes {
  private static final String SCHEMA = "conewise/sweep-1";
  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private SweepStateNodes() {}

  static ObjectNode of(SweepState state) {
    ObjectNode node = NODES.objectNode().put("schema", SCHEMA).put("kind", state.kind().name());
    ArrayNode jig = node.putArray("jig");
    for (Detail detail : state.jig().toDetails(0)) {
      ObjectNode fields = jig.addObject().put("topic", detail.topic()).putObject("fields");
      detail.fields().keys().forEach(key -> fields.put(key, detail.fields().text(key)));
    }
    state.selfCheck().ifPresent(report -> node.set("self_check", selfCheck(report)));
    ArrayNode readings = node.putArray("readings");
    for (ToneReading reading : state.readings()) {
      ObjectNode each = readings.addObject();
      each.put("step", reading.step()).put("frequency_hz", reading.frequencyHz());
      outcome(each, reading.read());
    }
    return node;
  }

  private static ObjectNode selfCheck(SelfCheckReport report) {
    ObjectNode node = NODES.objectNode().put("level", report.level());
    outcome(node.putObject("dc"), report.dcResistance());
    ArrayNode findings = node.putArray("findings");
    for (BenchFinding finding : report.findings()) {
      findings
          .addObject()
          .put("kind", finding.kind().name())
          .put("spoils", finding.spoils())
          .put("sentence", finding.sentence())
          .put("next_step", finding.nextStep());
    }
    node.set("idle_voltage", channel(report.idle().voltageVolt()));
    node.set("idle_current", channel(report.idle().currentAmpere()));
    return node;
  }

  private static ObjectNode channel(SampledChannel channel) {
    ObjectNode node =
        NODES
            .objectNode()
            .put("first_s", channel.firstInstantSeconds())
            .put("interval_s", channel.intervalSeconds());
    if (Double.isFinite(channel.lowRail())) {
      node.put("low_rail", channel.lowRail());
    }
    if (Double.isFinite(channel.highRail())) {
      node.put("high_rail", channel.highRail());
    }
    ArrayNode values = node.putArray("values");
    for (double value : channel.values()) {
      values.add(value);
    }
    return node;
  }

  private static void outcome(ObjectNode node, Outcome<ImpedancePoint> outcome) {
    if (outcome instanceof Outcome.NoResult<ImpedancePoint> none) {
      node.put("no_value_because", none.because());
    } else if (outcome instanceof Outcome.Found<ImpedancePoint> found) {
      ImpedancePoint point = found.value();
      ObjectNode values =
          node.putObject("point")
              .put("frequency_hz", point.frequencyHz())
              .put("resistance_ohm", point.resistanceOhm())
              .put("reactance_ohm", point.reactanceOhm());
      point
          .uncertainty()
          .ifPresent(
              known ->
                  values
                      .put("variance_resistance", known.varianceResistance())
                      .put("variance_reactance", known.varianceReactance())
                      .put("covariance", known.covariance()));
    }
  }

  static SweepState state(JsonNode node) {
    if (!text(node, "schema").equals(SCHEMA)) {
      throw new IllegalArgumentException(
          "its schema is \"" + text(node, "schema") + "\" instead of \"" + SCHEMA + "\"");
    }
    SweepKind kind = SweepKind.valueOf(text(node, "kind"));
    List<Detail> details = new ArrayList<>();
    for (JsonNode each : array(node, "jig")) {
      details.add(new Detail(0, text(each, "topic"), fields(required(each, "fields"))));
    }
    List<ToneReading> readings = new ArrayList<>();
    for (JsonNode each : array(node, "readings")) {
      readings.add(
          new ToneReading(
              (long) number(each, "step"), number(each, "frequency_hz"), outcome(each)));
    }
    Optional<SelfCheckReport> selfCheck =
        Optional.ofNullable(node.get("self_check")).map(SweepStateNodes::selfCheck);
    JigIdentity jig = JigIdentity.fromDetails(details);
    return new SweepState(kind, jig, selfCheck, readings, List.of());
  }

  private static Fields fields(JsonNode node) {
    Fields fields = Fields.NONE;
    for (var entry : node.properties()) {
      fields = fields.with(entry.getKey(), entry.getValue().asText());
    }
    return fields;
  }

  private static SelfCheckReport selfCheck(JsonNode node) {
    List<BenchFinding> findings = new ArrayList<>();
    for (JsonNode each : array(node, "findings")) {
      findings.add(
          new BenchFinding(
              BenchFinding.Kind.valueOf(text(each, "kind")),
              required(each, "spoils").asBoolean(),
              text(each, "sentence"),
              text(each, "next_step")));
    }
    Capture idle =
        new Capture(
            channel(required(node, "idle_voltage")), channel(required(node, "idle_current")));
    return new SelfCheckReport(
        idle, outcome(required(node, "dc")), (int) number(node, "level"), findings);
  }

  private static SampledChannel channel(JsonNode node) {
    JsonNode array = array(node, "values");
    double[] values = new double[array.size()];
    for (int i = 0; i < values.length; i++) {
      values[i] = number(array.get(i), "a sample");
    }
    return new SampledChannel(
        values,
        number(node, "first_s"),
        number(node, "interval_s"),
        node.has("low_rail") ? number(node, "low_rail") : Double.NEGATIVE_INFINITY,
        node.has("high_rail") ? number(node, "high_rail") : Double.POSITIVE_INFINITY);
  }

  private static Outcome<ImpedancePoint> outcome(JsonNode node) {
    if (node.has("no_value_because")) {
      return Outcome.none(text(node, "no_value_because"));
    }
    JsonNode point = required(node, "point");
    Optional<ImpedanceUncertainty> uncertainty =
        point.has("covariance")
            ? Optional.of(
                new ImpedanceUncertainty(
                    number(point, "variance_resistance"),
                    number(point, "variance_reactance"),
                    number(point, "covariance")))
            : Optional.empty();
    return Outcome.found(
        new ImpedancePoint(
            number(point, "frequency_hz"),
            number(point, "resistance_ohm"),
            number(point, "reactance_ohm"),
            uncertainty));
  }

  private static JsonNode required(JsonNode node, String key) {
    JsonNode value = node.get(key);
    if (value == null) {
      throw new IllegalArgumentException("\"" + key + "\" is missing");
    }
    return value;
  }

  private static JsonNode array(JsonNode node, String key) {
    JsonNode value = required(node, key);
    if (!value.isArray()) {
      throw new IllegalArgumentException("\"" + key + "\" is not a list");
    }
    return value;
  }

  private static String text(JsonNode node, String key) {
    JsonNode value = required(node, key);
    if (!value.isTextual()) {
      throw new IllegalArgumentException("\"" + key + "\" is not text");
    }
    return value.asText();
  }

  private static double number(JsonNode node, String key) {
    JsonNode value = node.isNumber() ? node : required(node, key);
    if (!value.isNumber() || !Double.isFinite(value.asDouble())) {
      throw new IllegalArgumentException("\"" + key + "\" is not a number");
    }
    return value.asDouble();
  }
}
