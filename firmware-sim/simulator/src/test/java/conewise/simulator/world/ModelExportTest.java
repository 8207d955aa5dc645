package conewise.simulator.world;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.simulator.analog.AnalogWorld;
import conewise.simulator.analog.JigImperfections;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The file against the virtual jig's own analog world: read anew here, by the words of its form.
 */
class ModelExportTest {
  private final ByteArrayOutputStream out = new ByteArrayOutputStream();
  private final ByteArrayOutputStream err = new ByteArrayOutputStream();

  private int export(String... arguments) {
    return ModelExport.run(
        arguments,
        new PrintStream(out, true, StandardCharsets.UTF_8),
        new PrintStream(err, true, StandardCharsets.UTF_8));
  }

  private static List<double[]> lines(String text, String word) {
    List<double[]> found = new ArrayList<>();
    for (String line : text.split("\n", -1)) {
      String[] words = line.split(" ", -1);
      if (words[0].equals(word)) {
        found.add(Arrays.stream(words).skip(1).mapToDouble(Double::parseDouble).toArray());
      }
    }
    return found;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  @Test
  void stepsOfTheFileGiveTheCodesOfTheVirtualWorld() {
    World world = DemoWorld.HERON.load().with(JigImperfections.ideal());
    String text = conewise.simulator.analog.BoardModel.text(world.box(), world.jig(), 1);
    AnalogWorld virtual = world.start();
    List<double[]> a = lines(text, "A");
    List<double[]> b = lines(text, "B");
    double[] drive = lines(text, "drive").get(0);
    double[] u = new double[b.get(0).length];
    double[] x = lines(text, "x").get(0);
    for (int tick = 0; tick < 3000; tick++) {
      int code = 512 + (int) Math.round(300 * Math.sin(2 * Math.PI * 40 * tick * 6.4e-5));
      u[0] = (code - drive[0]) * drive[1];
      double[] next = new double[x.length];
      for (int i = 0; i < x.length; i++) {
        next[i] = dot(a.get(i), x) + dot(b.get(i), u);
      }
      x = next;
      virtual.tick(code);
      for (int channel = 0; channel < 2; channel++) {
        double[] scale = lines(text, "channel").get(channel);
        double output =
            dot(lines(text, "C").get(channel), x) + dot(lines(text, "D").get(channel), u);
        // Half a code of rounding, and what sums in another order differ by.
        assertEquals(
            scale[0] + scale[1] * output, virtual.convert(channel), 0.5001, "tick " + tick);
      }
    }
  }

  @Test
  void everyDemoWorldCanBeWrittenOrSaysWhyNot() {
    for (DemoWorld demo : DemoWorld.values()) {
      assertEquals(0, export(demo.worldName()), demo.worldName() + ": " + err);
    }
    assertTrue(out.toString(StandardCharsets.UTF_8).startsWith("conewise-model 1\n"));
  }

  @Test
  void anUnknownWorldIsToldInOneSentence() {
    assertEquals(2, export("/nowhere/there-is-none.yaml"));
    assertTrue(
        err.toString(StandardCharsets.UTF_8).contains("there-is-none.yaml"),
        err.toString(StandardCharsets.UTF_8));
    assertEquals(2, export());
  }
}
