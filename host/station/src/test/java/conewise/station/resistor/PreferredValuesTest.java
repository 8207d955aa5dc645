package conewise.station.resistor;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Against the tables of IEC 60063 as handbooks print them (from memory). */
class PreferredValuesTest {
  private static final String E96 =
      "1.00 1.02 1.05 1.07 1.10 1.13 1.15 1.18 1.21 1.24 1.27 1.30 1.33 1.37 1.40 1.43 1.47 1.50"
          + " 1.54 1.58 1.62 1.65 1.69 1.74 1.78 1.82 1.87 1.91 1.96 2.00 2.05 2.10 2.15 2.21 2.26"
          + " 2.32 2.37 2.43 2.49 2.55 2.61 2.67 2.74 2.80 2.87 2.94 3.01 3.09 3.16 3.24 3.32 3.40"
          + " 3.48 3.57 3.65 3.74 3.83 3.92 4.02 4.12 4.22 4.32 4.42 4.53 4.64 4.75 4.87 4.99 5.11"
          + " 5.23 5.36 5.49 5.62 5.76 5.90 6.04 6.19 6.34 6.49 6.65 6.81 6.98 7.15 7.32 7.50 7.68"
          + " 7.87 8.06 8.25 8.45 8.66 8.87 9.09 9.31 9.53 9.76";

  private static double[] series(int count) {
    return IntStream.range(0, count).mapToDouble(i -> PreferredValues.value(count, i)).toArray();
  }

  @Test
  void seriesAreThoseOfTheStandard() {
    double[] e96 = Arrays.stream(E96.split(" ")).mapToDouble(Double::parseDouble).toArray();
    assertArrayEquals(e96, series(96), 1e-9);
    // E48 is every second value of E96.
    double[] e48 = IntStream.range(0, 48).mapToDouble(i -> e96[2 * i]).toArray();
    assertArrayEquals(e48, series(48), 1e-9);
    assertArrayEquals(new double[] {1, 1.5, 2.2, 3.3, 4.7, 6.8}, series(6), 1e-9);
    assertArrayEquals(
        new double[] {1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2}, series(12), 1e-9);
    assertEquals(9.20, PreferredValues.value(192, 185), 1e-9);
    assertEquals(1.01, PreferredValues.value(192, 1), 1e-9);
    assertEquals(9.88, PreferredValues.value(192, 191), 1e-9);
  }

  @ParameterizedTest
  @CsvSource({
    "10, 0.05",
    "3.9, 0.05",
    "4.99, 0.01",
    "4.7, 0.01",
    "9.1, 0.05",
    "100, 0.001",
    "9.88, 0.001",
    "1, 0.2",
    "150, 0.2",
    "91, 0.02"
  })
  void aValueThatIsMadeIsNotDoubted(double ohm, double tolerance) {
    assertEquals(Optional.empty(), PreferredValues.doubt(ohm, tolerance));
  }

  @ParameterizedTest
  @CsvSource({
    "9.8, 0.05, E24, 9.1 and 10",
    "4.8, 0.01, E96, 4.75 and 4.87",
    "99.9, 0.05, E24, 91 and 100",
    "1.01, 0.05, E24, 1 and 1.1"
  })
  void aValueThatIsNotMadeIsNamedWithItsNeighbours(
      double ohm, double tolerance, String series, String near) {
    String said = PreferredValues.doubt(ohm, tolerance).orElseThrow();
    assertTrue(said.contains("of " + series + ";"), said);
    assertTrue(said.contains("nearest are " + near + " ohm"), said);
  }
}
