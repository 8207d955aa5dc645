package conewise.station.outside;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import conewise.station.command.CommandRun;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * What was predicted from a plan, against boxes with drifted parts that the virtual jig measures:
 * it solves equations of motion in time, and shares nothing with the prediction.
 */
class PredictedFaultsTest {
  private static final Map<String, JsonNode> PREDICTED = new LinkedHashMap<>();

  @TempDir Path folder;

  @BeforeAll
  static void predict() throws Exception {
    CommandRun run = CommandRun.of("predict", "heron", "--boxes", "4", "--json");
    assertEquals(0, run.exitCode(), run.err());
    JsonNode answer = new ObjectMapper().readTree(run.out());
    PREDICTED.put("good", answer.get("good").get("curve"));
    for (JsonNode fault : answer.get("faults")) {
      if (fault.has("curve") && !fault.get("shown").asText().equals("never")) {
        String ids = fault.get("ids").toString();
        // Its parts may lie anywhere: it has no curve of its own.
        if (!ids.contains("driver-astray")) {
          PREDICTED.put(ids, fault.get("curve"));
        }
      }
    }
  }

  @ParameterizedTest
  @CsvSource({
    "heron, good",
    "heron-driver-reversed, driver-reversed:right",
    "heron-coil-reversed, coil-reversed",
    "heron-vent-blocked, vent-closed:port",
    "heron-vent-short, vent-too-short:port",
    "heron-leaky, leak:main"
  })
  void theCurveThatIsMeasuredIsNearestToThePredictionOfWhatTheBoxHas(String world, String truth)
      throws Exception {
    List<double[]> measured = measured(world);
    String nearest =
        PREDICTED.keySet().stream()
            .min(Comparator.comparingDouble(each -> distance(PREDICTED.get(each), measured)))
            .orElseThrow();
    double off = distance(PREDICTED.get(nearest), measured);
    System.out.printf("%s: nearest %s, %.1f %% rms%n", world, nearest, 100 * off);
    assertTrue(nearest.contains(truth), world + " is nearest to " + nearest);
  }

  private List<double[]> measured(String world) throws Exception {
    Path file = folder.resolve("curve.csv");
    CommandRun run = CommandRun.of("sweep", "--virtual", world, "--out", file.toString());
    assertEquals(0, run.exitCode(), run.err());
    List<double[]> points = new ArrayList<>();
    for (String line : Files.readAllLines(file)) {
      String[] cells = line.split(",", -1);
      if (cells.length >= 3 && cells[0].matches("[0-9.eE+-]+")) {
        double modulus = Math.hypot(Double.parseDouble(cells[1]), Double.parseDouble(cells[2]));
        points.add(new double[] {Double.parseDouble(cells[0]), modulus});
      }
    }
    assertTrue(points.size() > 50, points.size() + " points");
    return points;
  }

  /** Root mean square of ln |Z| between a prediction and a measurement. */
  private static double distance(JsonNode predicted, List<double[]> measured) {
    double sum = 0;
    int count = 0;
    for (double[] point : measured) {
      if (point[0] >= 10 && point[0] <= 400) {
        double off = Math.log(point[1] / modulusAt(predicted, point[0]));
        sum += off * off;
        count++;
      }
    }
    return Math.sqrt(sum / count);
  }

  /** The prediction's points lie so dense that the nearest one on a line will do. */
  private static double modulusAt(JsonNode curve, double hz) {
    int next = 2;
    while (next + 1 < curve.size() && curve.get(next).get("frequency_hz").asDouble() < hz) {
      next++;
    }
    double low = curve.get(next - 1).get("frequency_hz").asDouble();
    double part = (hz - low) / (curve.get(next).get("frequency_hz").asDouble() - low);
    return modulus(curve.get(next - 1)) * (1 - part) + modulus(curve.get(next)) * part;
  }

  private static double modulus(JsonNode point) {
    return Math.hypot(
        point.get("resistance_ohm").asDouble(), point.get("reactance_ohm").asDouble());
  }
}
