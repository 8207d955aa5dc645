package conewise.station.planfile;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javax.measure.MetricPrefix;
import javax.measure.Unit;
import tech.units.indriya.unit.Units;

/**
 * What a figure of a plan measures, and the units that it may be written in (inch, foot and pound:
 * NIST SP 811, appendix B).
 */
enum Measure {
  FREQUENCY("Hz", "Hz"),
  RESISTANCE("ohm", "ohm, mohm"),
  INDUCTANCE("H", "mH, uH, H"),
  VOLUME("m3", "litres, litre, l, cm3, m3, cu in, cu ft"),
  LENGTH("m", "mm, cm, m, in, ft"),
  AREA("m2", "cm2, m2, sq in"),
  MASS("kg", "g, kg, oz, lb"),
  COMPLIANCE("m/N", "mm/N, m/N");

  private static final Unit<?> INCH = Units.METRE.multiply(0.0254);
  private static final Unit<?> FOOT = INCH.multiply(12);
  private static final Unit<?> POUND = Units.KILOGRAM.multiply(0.45359237);

  private static final Map<String, Unit<?>> BY_LABEL = new LinkedHashMap<>();

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
  }

  private final String baseLabel;
  private final String labels;

  Measure(String baseLabel, String labels) {
    this.baseLabel = baseLabel;
    this.labels = labels;
  }

  /** The unit that values are kept in. */
  String baseLabel() {
    return baseLabel;
  }

  /** The units that it may be written in, as they are written. */
  List<String> labels() {
    return List.of(labels.split(", "));
  }

  /** A value in the unit without prefix (kilogram, metre...); none where the unit is another's. */
  Optional<Double> inBaseUnits(double value, String label) {
    if (!labels().contains(label)) {
      return Optional.empty();
    }
    try {
      return Optional.of(
          BY_LABEL.get(label).getConverterToAny(BY_LABEL.get(baseLabel)).convert(value));
    } catch (javax.measure.IncommensurableException e) {
      throw new IllegalStateException("the unit " + label + " is listed as one of " + this, e);
    }
  }
}
