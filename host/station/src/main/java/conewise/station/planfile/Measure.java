package conewise.station.planfile;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.measure.IncommensurableException;
import javax.measure.MetricPrefix;
import javax.measure.Unit;
import javax.measure.UnitConverter;
import tech.units.indriya.AbstractUnit;
import tech.units.indriya.unit.Units;

/**
 * What a figure of a plan or a calculation measures, and the units that it may be written in (inch,
 * foot, pound and degree Fahrenheit: NIST SP 811, appendix B).
 */
public enum Measure {
  FREQUENCY("Hz", "Hz"),
  RESISTANCE("ohm", "ohm, mohm"),
  INDUCTANCE("H", "mH, uH, H"),
  VOLUME("m3", "litres, litre, l, L, cm3, m3, cu in, cu ft"),
  LENGTH("m", "mm, cm, m, in, ft"),
  AREA("m2", "cm2, m2, sq in"),
  MASS("kg", "g, kg, oz, lb"),
  COMPLIANCE("m/N", "mm/N, m/N"),
  TIME("s", "ms, us, s"),
  TEMPERATURE("C", "C, F"),
  WIRE_SECTION("m2", "mm2, m2"),
  PHASE("deg", "deg"),
  LEVEL("dB", "dB");

  private static final Unit<?> INCH = Units.METRE.multiply(0.0254);
  private static final Unit<?> FOOT = INCH.multiply(12);
  private static final Unit<?> POUND = Units.KILOGRAM.multiply(0.45359237);

  private static final Map<String, Unit<?>> BY_LABEL = new HashMap<>();

  private static final Map<Measure, Map<String, UnitConverter>> CONVERTERS =
      new EnumMap<>(Measure.class);

  static {
    BY_LABEL.put("Hz", Units.HERTZ);
    BY_LABEL.put("ohm", Units.OHM);
    BY_LABEL.put("mohm", MetricPrefix.MILLI(Units.OHM));
    BY_LABEL.put("H", Units.HENRY);
    BY_LABEL.put("mH", MetricPrefix.MILLI(Units.HENRY));
    BY_LABEL.put("uH", MetricPrefix.MICRO(Units.HENRY));
    BY_LABEL.put("litres", Units.LITRE);
    BY_LABEL.put("litre", Units.LITRE);
    BY_LABEL.put("l", Units.LITRE);
    BY_LABEL.put("L", Units.LITRE);
    BY_LABEL.put("cm3", MetricPrefix.CENTI(Units.METRE).pow(3));
    BY_LABEL.put("m3", Units.CUBIC_METRE);
    BY_LABEL.put("cu in", INCH.pow(3));
    BY_LABEL.put("cu ft", FOOT.pow(3));
    BY_LABEL.put("mm", MetricPrefix.MILLI(Units.METRE));
    BY_LABEL.put("cm", MetricPrefix.CENTI(Units.METRE));
    BY_LABEL.put("m", Units.METRE);
    BY_LABEL.put("in", INCH);
    BY_LABEL.put("ft", FOOT);
    BY_LABEL.put("cm2", MetricPrefix.CENTI(Units.METRE).pow(2));
    BY_LABEL.put("m2", Units.SQUARE_METRE);
    BY_LABEL.put("sq in", INCH.pow(2));
    BY_LABEL.put("g", Units.GRAM);
    BY_LABEL.put("kg", Units.KILOGRAM);
    BY_LABEL.put("lb", POUND);
    BY_LABEL.put("oz", POUND.divide(16));
    BY_LABEL.put("m/N", Units.METRE.divide(Units.NEWTON));
    BY_LABEL.put("mm/N", MetricPrefix.MILLI(Units.METRE).divide(Units.NEWTON));
    BY_LABEL.put("ms", MetricPrefix.MILLI(Units.SECOND));
    BY_LABEL.put("us", MetricPrefix.MICRO(Units.SECOND));
    BY_LABEL.put("s", Units.SECOND);
    BY_LABEL.put("C", Units.CELSIUS);
    BY_LABEL.put("F", Units.KELVIN.multiply(5).divide(9).shift(459.67));
    BY_LABEL.put("mm2", MetricPrefix.MILLI(Units.METRE).pow(2));
    BY_LABEL.put("deg", AbstractUnit.ONE);
    BY_LABEL.put("dB", AbstractUnit.ONE);
    for (Measure measure : values()) {
      Map<String, UnitConverter> converters = new HashMap<>();
      measure.labels().forEach(label -> converters.put(label, measure.converter(label)));
      CONVERTERS.put(measure, converters);
    }
  }

  private final String baseLabel;
  private final String labels;

  Measure(String baseLabel, String labels) {
    this.baseLabel = baseLabel;
    this.labels = labels;
  }

  /** The unit that values are kept in. */
  public String baseLabel() {
    return baseLabel;
  }

  /** The units that it may be written in, as they are written. */
  public List<String> labels() {
    return List.of(labels.split(", "));
  }

  /** A value in the unit without prefix (kilogram, metre...); none where the unit is another's. */
  Optional<Double> inBaseUnits(double value, String label) {
    return Optional.ofNullable(CONVERTERS.get(this).get(label)).map(each -> each.convert(value));
  }

  private UnitConverter converter(String label) {
    try {
      return BY_LABEL.get(label).getConverterToAny(BY_LABEL.get(baseLabel));
    } catch (IncommensurableException e) {
      throw new IllegalStateException("the unit " + label + " is listed as one of " + this, e);
    }
  }

  /**
   * A value with its unit as a plan has it: in the usual unit where that is read again as the very
   * same value, and else in the unit without prefix.
   */
  String written(double value) {
    String usual = labels().get(0);
    BigDecimal step = BigDecimal.valueOf(inBaseUnits(1, usual).orElseThrow());
    BigDecimal number =
        BigDecimal.valueOf(value).divide(step, MathContext.DECIMAL64).stripTrailingZeros();
    return inBaseUnits(number.doubleValue(), usual).filter(again -> again == value).isPresent()
        ? number.toPlainString() + " " + usual
        : Fields.plain(value) + " " + baseLabel;
  }
}
