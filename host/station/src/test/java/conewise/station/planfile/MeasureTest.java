package conewise.station.planfile;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.plan.Stated;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class MeasureTest {

  /** NIST SP 811 (2008), appendix B.8, as many digits as it gives; from memory. */
  @ParameterizedTest
  @CsvSource({
    "LENGTH, in, 0.0254, 1e-15",
    "LENGTH, ft, 0.3048, 1e-15",
    "LENGTH, mm, 0.001, 1e-15",
    "AREA, sq in, 6.4516e-4, 1e-15",
    "AREA, cm2, 1e-4, 1e-15",
    "VOLUME, cu in, 1.6387064e-5, 1e-15",
    "VOLUME, cu ft, 0.028316846592, 1e-15",
    "VOLUME, litres, 0.001, 1e-15",
    "VOLUME, L, 0.001, 1e-15",
    "VOLUME, cm3, 1e-6, 1e-15",
    "MASS, lb, 0.45359237, 1e-15",
    "MASS, oz, 2.834952e-2, 5e-7",
    "MASS, g, 0.001, 1e-15",
    "RESISTANCE, mohm, 0.001, 1e-15",
    "INDUCTANCE, uH, 1e-6, 1e-15",
    "COMPLIANCE, mm/N, 0.001, 1e-15",
    "TIME, ms, 0.001, 1e-15",
    "WIRE_SECTION, mm2, 1e-6, 1e-15",
  })
  void convertsEachUnitByItsPublishedFactor(
      Measure measure, String unit, double factor, double relative) {
    assertEquals(factor, measure.inBaseUnits(1, unit).orElseThrow(), relative * factor);
    assertEquals(37 * factor, measure.inBaseUnits(37, unit).orElseThrow(), 37 * relative * factor);
  }

  /** NIST SP 811, appendix B: t/C = (t/F - 32) / 1.8; from memory. */
  @ParameterizedTest
  @CsvSource({"32, 0", "212, 100", "-40, -40", "68, 20"})
  void readsDegreesFahrenheit(double fahrenheit, double celsius) {
    assertEquals(celsius, Measure.TEMPERATURE.inBaseUnits(fahrenheit, "F").orElseThrow(), 1e-10);
  }

  @Test
  void takesEveryUnitThatItLists() {
    for (Measure measure : Measure.values()) {
      measure.labels().forEach(unit -> assertTrue(measure.inBaseUnits(1, unit).isPresent(), unit));
      assertEquals(Optional.of(3.7), measure.inBaseUnits(3.7, measure.baseLabel()));
    }
    assertEquals(Optional.empty(), Measure.LENGTH.inBaseUnits(1, "litres"));
  }

  @ParameterizedTest
  @CsvSource({
    "32 Hz, 32, 0.12",
    "32Hz, 32, 0.12",
    "+3.2e1 Hz, 32, 0.12",
    "32 Hz +- 10 %, 32, 0.05",
    "32 Hz +/- 10%, 32, 0.05",
    "32 Hz \u00b1 10 %, 32, 0.05",
    "' .5 Hz+-3 % ', .5, 0.015",
  })
  void readsAFigureAndHalvesItsTolerance(String text, double value, double spread) {
    Figure figure = Figure.parse(text, Optional.of(Measure.FREQUENCY)).orElseThrow();
    assertEquals(new Stated(value, spread), figure.stated(UsualSpread.RESONANCE));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "32",
        "32 hz",
        "32 Hertz",
        "Hz",
        "32 Hz +- 10",
        "32 Hz 10 %",
        "32 Hz +- 0 %",
        "1,5 Hz",
        "32 Hz +- 301 %",
        "32 Hz +- -5 %",
        "NaN Hz",
        "Infinity Hz",
        "0x10 Hz",
        "32 Hz Hz",
        "3 2 Hz",
        "32 litres",
        ""
      })
  void refusesWhatIsNoFigure(String text) {
    assertEquals(Optional.empty(), Figure.parse(text, Optional.of(Measure.FREQUENCY)));
  }

  @Test
  void writesAValueInItsUsualUnit() {
    assertEquals("29.5 litres", Measure.VOLUME.written(0.0295));
    assertEquals("345 cm2", Measure.AREA.written(0.0345));
    assertEquals("1.4 mH", Measure.INDUCTANCE.written(1.4e-3));
    assertEquals("34 Hz", Measure.FREQUENCY.written(34));
  }

  @Test
  void readsAgainTheVeryNumberThatItWrote() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("figures written: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    List<Measure> measures = List.of(Measure.values());
    for (int i = 0; i < 2000; i++) {
      Measure measure = measures.get(random.nextInt(measures.size()));
      Stated stated =
          new Stated(Math.exp(10 * random.nextDouble() - 8), 0.01 + 1.4 * random.nextDouble());
      String text = Figure.written(stated, Optional.of(measure), 0.1);
      Stated again = Figure.parse(text, Optional.of(measure)).orElseThrow().stated(0.1);
      assertEquals(stated, again, "seed " + seed + ": " + text);
    }
  }
}
