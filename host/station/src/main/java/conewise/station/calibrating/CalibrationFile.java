package conewise.station.calibrating;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonMappingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.MapperFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.DoubleNode;
import com.fasterxml.jackson.databind.node.TextNode;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.impedance.OnePortCorrection;
import conewise.analysis.impedance.OpenReading;
import conewise.jig.sweep.Calibration;
import conewise.protocol.Detail;
import conewise.protocol.Fields;
import conewise.protocol.JigIdentity;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import conewise.station.files.Quoted;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A calibration in a file: JSON, schema {@code conewise/calibration-1}. */
public final class CalibrationFile {
  private static final String SCHEMA = "conewise/calibration-1";
  private static final String UNKNOWN = "unknown";
  private static final long LARGEST_BYTES = 4L << 20;
  private static final JsonMapper MAPPER =
      JsonMapper.builder(
              JsonFactory.builder().enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION).build())
          .disable(MapperFeature.ALLOW_COERCION_OF_SCALARS)
          .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
          .enable(DeserializationFeature.FAIL_ON_MISSING_CREATOR_PROPERTIES)
          .enable(DeserializationFeature.FAIL_ON_NULL_FOR_PRIMITIVES)
          .enable(DeserializationFeature.FAIL_ON_NULL_CREATOR_PROPERTIES)
          .build();

  /** The file's content; its names are the keys. Rows of numbers as file-formats.md says. */
  private record Content(
      String schema,
      String id,
      String taken,
      double resistor_ohm,
      double tolerance_percent,
      JsonNode temperature_celsius,
      List<Topic> jig,
      List<List<Double>> open,
      List<List<Double>> shorted,
      List<List<Double>> standard) {}

  private record Topic(String topic, Map<String, String> fields) {}

  private CalibrationFile() {}

  /**
   * Writes a calibration.
   *
   * @throws BadFileException when it cannot be written, or a file is there that may not be replaced
   */
  public static void write(Path file, StoredCalibration stored, Existing existing)
      throws BadFileException {
    OnePortCorrection correction = stored.calibration().correction();
    Content content =
        new Content(
            SCHEMA,
            stored.calibration().id(),
            stored.taken().toOffsetDateTime().toString(),
            correction.standardOhm(),
            100 * stored.toleranceFraction(),
            stored
                .temperatureCelsius()
                .<JsonNode>map(DoubleNode::valueOf)
                .orElse(TextNode.valueOf(UNKNOWN)),
            stored.jig().toDetails(0).stream().map(CalibrationFile::topic).toList(),
            correction.open().points().stream().map(CalibrationFile::row).toList(),
            correction.shorted().points().stream().map(CalibrationFile::row).toList(),
            correction.standard().points().stream().map(CalibrationFile::row).toList());
    try {
      NewFile.writeText(file, existing, MAPPER.writeValueAsString(content));
    } catch (JsonProcessingException impossible) {
      throw new IllegalStateException("a calibration could not be put into words", impossible);
    }
  }

  /**
   * Reads a calibration.
   *
   * @throws BadFileException when it is not there or no such file; the message says what is wrong
   */
  public static StoredCalibration read(Path file) throws BadFileException {
    try {
      if (Files.size(file) > LARGEST_BYTES) {
        throw new BadFileException(
            file + " has " + Files.size(file) + " bytes; a calibration has at most 4 MiB.");
      }
      return stored(MAPPER.readValue(Files.readAllBytes(file), Content.class));
    } catch (NoSuchFileException e) {
      throw new BadFileException(
          file + " does not exist; make a calibration with: conewise calibrate");
    } catch (JsonProcessingException | IllegalArgumentException bad) {
      throw new BadFileException(
          file + " is no calibration (" + reason(bad) + "); make one with: conewise calibrate");
    } catch (IOException e) {
      throw new BadFileException(
          file + " cannot be read (" + e.getClass().getSimpleName() + "); check its name.");
    }
  }

  private static StoredCalibration stored(Content content) {
    if (content == null || !SCHEMA.equals(content.schema())) {
      throw new IllegalArgumentException("its schema is not " + SCHEMA);
    }
    List<Detail> details = new ArrayList<>();
    if (!content.id().matches("[A-Za-z0-9-]{1,16}")) {
      throw new IllegalArgumentException("its id is not 1 to 16 letters, digits or hyphens");
    }
    for (Topic topic : content.jig()) {
      if (topic == null) {
        throw new IllegalArgumentException("its jig holds an empty topic");
      }
      Fields fields = Fields.NONE;
      for (var entry : topic.fields().entrySet()) {
        if (entry.getValue() == null) {
          throw new IllegalArgumentException("the jig's " + entry.getKey() + " has no value");
        }
        fields = fields.with(entry.getKey(), entry.getValue());
      }
      details.add(new Detail(0, topic.topic(), fields));
    }
    double tolerance = content.tolerance_percent() / 100;
    if (!(tolerance >= 0 && tolerance <= 0.5)) {
      throw new IllegalArgumentException("its tolerance is not within 0 to 50 %");
    }
    OnePortCorrection correction =
        new OnePortCorrection(
            new OpenReading(content.open().stream().map(CalibrationFile::openPoint).toList()),
            new ImpedanceCurve(content.shorted().stream().map(CalibrationFile::point).toList()),
            new ImpedanceCurve(content.standard().stream().map(CalibrationFile::point).toList()),
            content.resistor_ohm(),
            OnePortCorrection.uncertaintyOfTolerance(content.resistor_ohm(), tolerance));
    return new StoredCalibration(
        new Calibration(content.id(), correction),
        time(content.taken()),
        tolerance,
        JigIdentity.fromDetails(details),
        temperature(content.temperature_celsius()));
  }

  private static Optional<Double> temperature(JsonNode node) {
    if (node.isTextual() && node.textValue().equals(UNKNOWN)) {
      return Optional.empty();
    }
    if (!node.isNumber()) {
      throw new IllegalArgumentException(
          "temperature_celsius is neither a number nor \"" + UNKNOWN + "\"");
    }
    return Optional.of(node.doubleValue());
  }

  private static ZonedDateTime time(String taken) {
    try {
      return ZonedDateTime.parse(taken);
    } catch (DateTimeException bad) {
      throw new IllegalArgumentException(
          "taken is not a time such as 2026-11-25T10:44:38+01:00", bad);
    }
  }

  private static Topic topic(Detail detail) {
    Map<String, String> fields = new LinkedHashMap<>();
    detail.fields().keys().forEach(key -> fields.put(key, detail.fields().text(key)));
    return new Topic(detail.topic(), fields);
  }

  private static List<Double> row(OpenReading.Point point) {
    return List.of(
        point.frequencyHz(),
        point.conductanceSiemens(),
        point.susceptanceSiemens(),
        point.standardUncertaintySiemens());
  }

  private static List<Double> row(ImpedancePoint point) {
    ImpedanceUncertainty known = point.uncertainty().orElse(ImpedanceUncertainty.circular(0));
    return List.of(
        point.frequencyHz(),
        point.resistanceOhm(),
        point.reactanceOhm(),
        known.varianceResistance(),
        known.varianceReactance(),
        known.covariance());
  }

  private static OpenReading.Point openPoint(List<Double> row) {
    requireNumbers(row, 4);
    return new OpenReading.Point(row.get(0), row.get(1), row.get(2), row.get(3));
  }

  private static ImpedancePoint point(List<Double> row) {
    requireNumbers(row, 6);
    return new ImpedancePoint(
        row.get(0),
        row.get(1),
        row.get(2),
        Optional.of(new ImpedanceUncertainty(row.get(3), row.get(4), row.get(5))));
  }

  private static void requireNumbers(List<Double> row, int count) {
    if (row == null || row.size() != count || row.contains(null)) {
      throw new IllegalArgumentException("a row does not hold " + count + " numbers");
    }
  }

  private static String reason(Exception problem) {
    if (problem instanceof JsonProcessingException json) {
      String key =
          json instanceof JsonMappingException mapping && !mapping.getPath().isEmpty()
              ? mapping.getPath().get(0).getFieldName()
              : null;
      return key == null ? "it is not whole JSON" : "the key " + Quoted.of(key) + " is wrong";
    }
    return String.valueOf(problem.getMessage()).lines().findFirst().orElse("no reason given");
  }
}
