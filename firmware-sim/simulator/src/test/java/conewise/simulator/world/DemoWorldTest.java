package conewise.simulator.world;

import static org.junit.jupiter.api.Assertions.assertEquals;

import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.VirtualAnalog;
import conewise.simulator.box.Box;
import conewise.simulator.dynamics.DiscreteModel;
import conewise.simulator.dynamics.Response;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The demo's boxes show at their terminals what such boxes show (common practice; places from the
 * rules fL fH = fs fB and fc = fs sqrt(1 + a), within the spread of the drivers).
 */
class DemoWorldTest {
  private static final double LOWEST_HZ = 8;
  private static final double STEP_HZ = 0.25;

  private static double[] modulus(Box box) {
    DiscreteModel model = VirtualAnalog.model(box, JigImperfections.ideal());
    double[] z = new double[400];
    for (int k = 0; k < z.length; k++) {
      Complex[] response = Response.of(model, LOWEST_HZ + k * STEP_HZ);
      z[k] = response[0].divide(response[1]).abs();
    }
    return z;
  }

  private static List<Double> peaks(double[] z) {
    List<Double> peaks = new ArrayList<>();
    for (int k = 1; k < z.length - 1; k++) {
      if (z[k] > z[k - 1] && z[k] >= z[k + 1]) {
        peaks.add(LOWEST_HZ + k * STEP_HZ);
      }
    }
    return peaks;
  }

  @ParameterizedTest
  @CsvSource({
    "HERON, 2, 21, 52",
    "HERON_DRIVER_REVERSED, 1, 32, 32",
    "HERON_COIL_REVERSED, 3, 20, 53",
    "HERON_LEAKY, 2, 21, 52",
    "HERON_VENT_SHORT, 2, 23, 55",
    "HERON_VENT_BLOCKED, 1, 45, 45",
    "WREN, 1, 48, 48",
    "WREN_DRIVER_REVERSED, 1, 28, 28",
    "PLOVER, 1, 62, 62",
    "DIPPER, 2, 26, 75"
  })
  void showsItsPeaks(DemoWorld demo, int count, double firstHz, double lastHz) {
    List<Double> peaks = peaks(modulus(demo.load().box()));
    assertEquals(count, peaks.size(), demo + " " + peaks);
    assertEquals(firstHz, peaks.get(0), 0.05 * firstHz, demo + " " + peaks);
    assertEquals(lastHz, peaks.get(count - 1), 0.05 * lastHz, demo + " " + peaks);
  }

  @Test
  void separateSpacesHideTheReversedDriver() {
    Box box = DemoWorld.PLOVER.load().box();
    double[] asBuilt = modulus(box);
    double[] mended = modulus(box.withDriverReversed("right"));
    for (int k = 0; k < asBuilt.length; k++) {
      assertEquals(mended[k], asBuilt[k], 1e-9 * mended[k]);
    }
  }

  @ParameterizedTest
  @EnumSource(DemoWorld.class)
  void isNamedLikeItsFileAndStartsFromRest(DemoWorld demo) {
    World world = demo.load();
    assertEquals(demo.worldName(), world.name());
    assertEquals(512, world.with(JigImperfections.ideal()).start().convert(0));
  }
}
