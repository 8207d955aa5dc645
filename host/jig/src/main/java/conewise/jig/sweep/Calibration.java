package conewise.jig.sweep;

import conewise.analysis.impedance.OnePortCorrection;

/**
 * A correction and the name that it goes by.
 *
 * @param id its name: 1 to 16 letters, digits or hyphens, as a jig stores it
 * @param correction what open, short and a known resistor read
 */
public record Calibration(String id, OnePortCorrection correction) {

  public Calibration {
    if (!id.matches("[A-Za-z0-9-]{1,16}")) {
      throw new IllegalArgumentException(
          "the calibration is called \"" + id + "\"; it takes 1 to 16 letters, digits or hyphens");
    }
  }
}
