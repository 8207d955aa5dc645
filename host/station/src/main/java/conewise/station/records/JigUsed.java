package conewise.station.records;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * With what a box was measured.
 *
 * @param serial the jig's own number, where it has one
 * @param board the kind of board
 * @param firmware its firmware's version
 * @param calibration which calibration was used; empty for nominal scales
 * @param temperatureC of the air in degrees Celsius, where it was measured; -50 to 100
 */
public record JigUsed(
    Optional<String> serial,
    String board,
    String firmware,
    Optional<String> calibration,
    OptionalDouble temperatureC) {
  private static final int MOST = 200;

  public JigUsed {
    Words.require("the jig's serial number", serial, MOST);
    Words.require("the jig's board", board, MOST);
    Words.require("the jig's firmware", firmware, MOST);
    Words.require("the calibration", calibration, MOST);
    if (temperatureC.isPresent()
        && !(temperatureC.getAsDouble() >= -50 && temperatureC.getAsDouble() <= 100)) {
      throw new IllegalArgumentException(
          "the temperature is "
              + temperatureC.getAsDouble()
              + " degrees Celsius; it must be -50 to 100");
    }
  }
}
