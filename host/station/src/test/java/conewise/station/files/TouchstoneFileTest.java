package conewise.station.files;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Rules of the option line and the normalisation of Z: Touchstone File Format Specification,
 * version 2.0, IBIS Open Forum, 24 April 2009, "Option Line" and "Compatibility Notes"; that
 * matrices other than S are normalised in versions 1.0 and 1.1 is said again in the Open Forum's
 * presentation of version 2.1 (a Z11 of 1 under R 50 is 50 ohm). Impedances below were computed by
 * hand.
 */
class TouchstoneFileTest {

  /** Hand results are given to six digits. */
  private static final double SIX_DIGITS = 5e-5;

  @TempDir Path directory;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        // Version 1 normalises: 1 under R 50 is 50 ohm.
        "# Hz Z RI R 50  | 20 1 0          | 20    | 50       | 0",
        "# HZ Z RI R 1   | 20 3.5 -1.25    | 20    | 3.5      | -1.25",
        "# r 8 ri z khz  | 1.25 0.5 0.25   | 1250  | 4        | 2",
        "#MHz MA Z R 10  | 2e-5 0.5 90     | 20    | 0        | 5",
        // 20 log10 2 = 6.0205999: modulus 2, angle -60 degrees: 2 (0.5 - j 0.8660254), times 4.
        "# GHz Z DB R 4  | 2e-8 6.0205999 -60 | 20 | 4        | -6.9282032",
        // All left out: GHz, S, MA, 50. (1 + 0.5)/(1 - 0.5) = 3.
        "#               | 0.00000002 0.5 0   | 20 | 150      | 0",
        "# Hz S MA       | 20 0.5 180      | 20    | 16.666667| 0",
        "# Hz S MA       | 20 1 90         | 20    | 0        | 50",
        "# Hz S MA       | 20 1 -90        | 20    | 0        | -50",
        // (1.25 - j0.5)/(0.75 + j0.5) = (0.6875 - j1)/0.8125.
        "# Hz S RI R 50  | 20 0.25 -0.5    | 20    | 42.307692| -61.538462",
        "# Hz S DB R 50  | 20 -6.0205999 0 | 20    | 150      | 0",
      })
  void readsEachFormOfTheOptionLine(
      String option, String line, double hz, double resistanceOhm, double reactanceOhm)
      throws BadFileException {
    ImpedancePoint point =
        read("! made by hand\n" + option + "\n" + line + " ! c\n").points().get(0);
    assertEquals(hz, point.frequencyHz(), "decimal units are exact");
    assertEquals(resistanceOhm, point.resistanceOhm(), SIX_DIGITS);
    assertEquals(reactanceOhm, point.reactanceOhm(), SIX_DIGITS);
  }

  @Test
  void ignoresLaterOptionLinesAsTheSpecificationAsks() throws BadFileException {
    ImpedanceCurve curve = read("# Hz Z RI R 1\n20 1 2\n# GHz S MA R 50\n30 3 4\n");
    assertEquals(new ImpedancePoint(30, 3, 4, Optional.empty()), curve.points().get(1));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "# Hz Y RI R 50~20 1 0   | line 1 | admittance",
        "# Hz H RI R 50~20 1 0   | line 1 | hybrid h",
        "# Hz G RI R 50~20 1 0   | line 1 | hybrid g",
        "# Hz S RI R 50~20 1 0 1 0 1 0 1 0 | line 2 | two-port",
        "# Hz S RI R 50 75~20 1 0 | line 1 | \"75\"",
        "# Hz S RI R 0~20 1 0    | line 1 | above 0",
        "# Hz S RI R -50~20 1 0  | line 1 | above 0",
        "# Hz S RI R~20 1 0      | line 1 | R 50",
        "# Hz S Z RI~20 1 0      | line 1 | twice",
        "# THz S RI~20 1 0       | line 1 | \"THZ\"",
        "20 1 0                  | line 1 | before the option line",
        "[Version] 2.0~# Hz Z RI~20 1 0 | line 1 | version 2",
        "# Hz S RI~20 1 0        | line 2 | open circuit",
        "# Hz S DB~20 1e11 3     | line 2 | finite",
        "# Hz S RI~20 0,5 0      | line 2 | \"0,5\"",
        "# Hz S RI~20 nan 0      | line 2 | \"nan\"",
        "# Hz S RI~20 0.5        | line 2 | found 2 numbers",
        "# Hz S RI~20 .5 0~20 .5 0 | line 3 | comes twice",
        "# Hz S RI~20 .5 0~10 .5 0 | line 3 | sort",
        "# Hz S RI~! nothing     | box.s1p | at least one",
      })
  void refusesByLineAndName(String text, String where, String what) {
    String message = Texts.refusal(() -> read(text.strip().replace('~', '\n') + "\n"));
    assertTrue(message.contains(where) && message.contains(what), message);
  }

  @Test
  void refusesTheNameOfAFileOfMorePorts() {
    Path file = Texts.file(directory, "pair.S2P", "# Hz S RI\n20 0.5 0\n");
    assertTrue(Texts.refusal(() -> TouchstoneFile.read(file)).contains("2 ports"), "its ports");
  }

  @Test
  void givesBackTheVeryImpedancesThatWereWritten() throws BadFileException {
    long seed = System.nanoTime();
    ImpedanceCurve curve = random(seed);
    Path file = directory.resolve("z.s1p");
    TouchstoneFile.writeImpedance(file, curve, Existing.REFUSE);
    assertEquals(curve, TouchstoneFile.read(file), "seed " + seed);
  }

  @Test
  void givesBackWrittenReflectionsToTheRoundingOfTheConversion() throws BadFileException {
    long seed = System.nanoTime();
    ImpedanceCurve curve = random(seed);
    Path file = directory.resolve("s.s1p");
    TouchstoneFile.writeReflection(file, curve, 50, Existing.REFUSE);
    ImpedanceCurve back = TouchstoneFile.read(file);
    for (int i = 0; i < curve.points().size(); i++) {
      ImpedancePoint was = curve.points().get(i);
      ImpedancePoint is = back.points().get(i);
      // dZ = (Z + R)^2/(2R) ds with |ds| of a few units of 1.1e-16; ten of them allowed.
      double allowed =
          1.1e-15 * Math.pow(Math.hypot(was.resistanceOhm() + 50, was.reactanceOhm()), 2) / 100;
      assertEquals(was.resistanceOhm(), is.resistanceOhm(), allowed, "seed " + seed);
      assertEquals(was.reactanceOhm(), is.reactanceOhm(), allowed, "seed " + seed);
    }
  }

  @Test
  void willNotWriteAReflectionThatHasNoBound() {
    ImpedanceCurve curve =
        new ImpedanceCurve(List.of(new ImpedancePoint(20, -50, 0, Optional.empty())));
    Path file = directory.resolve("s.s1p");
    String message =
        Texts.refusal(() -> TouchstoneFile.writeReflection(file, curve, 50, Existing.REFUSE));
    assertTrue(message.contains("minus the reference"), message);
  }

  private static ImpedanceCurve random(long seed) {
    Random random = new Random(seed);
    List<ImpedancePoint> points = new ArrayList<>();
    for (int i = 1; i < 300; i++) {
      points.add(
          new ImpedancePoint(
              i + random.nextDouble() / 2,
              random.nextDouble() * 60,
              random.nextGaussian() * 20,
              Optional.empty()));
    }
    return new ImpedanceCurve(points);
  }

  private ImpedanceCurve read(String text) throws BadFileException {
    return TouchstoneFile.read(Texts.file(directory, "box.s1p", text));
  }
}
