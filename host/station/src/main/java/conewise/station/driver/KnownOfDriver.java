package conewise.station.driver;

import conewise.analysis.parameter.DriverMeasurement;
import java.util.OptionalDouble;

/**
 * What is known of a driver beside its sweeps.
 *
 * @param areaCm2 area of the cone, 0.1 to 10 000
 * @param movingMassGram Mms, 0.01 to 5000
 * @param coils number of like voice coils in series at the clips, 1 to 4
 */
public record KnownOfDriver(OptionalDouble areaCm2, OptionalDouble movingMassGram, int coils) {
  private static final double CM2_PER_M2 = 1e4;
  private static final double GRAM_PER_KG = 1e3;

  public KnownOfDriver {
    areaCm2.ifPresent(area -> Allowed.require("the cone's area", area, 0.1, 10_000, "cm2"));
    movingMassGram.ifPresent(mass -> Allowed.require("the moving mass", mass, 0.01, 5000, "gram"));
    Allowed.require("the number of voice coils", coils, 1, 4, "");
  }

  /** Beginning from a sweep in free air. */
  DriverMeasurement measurement(DriverSweep freeAir) {
    DriverMeasurement measurement = DriverMeasurement.freeAir(freeAir.curve(), coils);
    if (areaCm2.isPresent()) {
      measurement = measurement.withArea(areaCm2.getAsDouble() / CM2_PER_M2);
    }
    return movingMassGram.isPresent()
        ? measurement.withMovingMass(movingMassGram.getAsDouble() / GRAM_PER_KG)
        : measurement;
  }
}
