package conewise.simulator.analog;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * The virtual jig's constants against those that the real circuit's proof has solved from its
 * netlist (nodal equations checked against ngspice; the bridge's limits by ngspice in time).
 *
 * <p>A constant may differ by the tolerance of the parts that make it: 1 % for resistors, 5 % for a
 * pole, whose capacitor has 5 %.
 */
class CircuitTest {
  private static final double RESISTORS = 0.01;
  private static final double POLE = 0.05;

  private static final Map<String, Double> SOLVED = new HashMap<>();
  private static final JigHardware HARDWARE = JigHardware.nominal();
  private static final JigImperfections EXACT = JigImperfections.ideal();

  @BeforeAll
  static void readWhatTheCircuitGives() throws IOException {
    Path file = Path.of("..", "..", "hardware-notes", "circuit", "solved.csv");
    List<String> lines = Files.readAllLines(file);
    for (String line : lines.subList(1, lines.size())) {
      String[] words = line.split(",", -1);
      SOLVED.put(words[0], Double.parseDouble(words[1]));
    }
  }

  private static void assertWithin(double share, String key, double constant) {
    Double solved = SOLVED.get(key);
    assertTrue(solved != null, "solved.csv has no " + key);
    assertEquals(solved, constant, share * solved, key);
  }

  @Test
  void scalesOfTheChannelsAreTheCircuits() {
    assertWithin(RESISTORS, "volt_per_code", HARDWARE.channels().get(0).perCode());
    assertWithin(RESISTORS, "ampere_per_code", HARDWARE.channels().get(1).perCode());
  }

  @Test
  void driveAndSenseResistorAreTheCircuits() {
    assertWithin(RESISTORS, "volt_per_level", HARDWARE.voltPerLevel());
    assertWithin(RESISTORS, "full_volt", HARDWARE.levelMax() * HARDWARE.voltPerLevel());
    assertWithin(RESISTORS, "sense_ohm", HARDWARE.senseOhm());
    assertWithin(RESISTORS, "sense_ohm", EXACT.senseOhm());
  }

  /** Two equal poles have the delay 2 / (2 pi f) at low frequency and the natural frequency f. */
  @Test
  void waveFilterIsTheCircuits() {
    assertWithin(POLE, "drive_delay_seconds", 2 / (2 * Math.PI * EXACT.driveFilterHz()));
    assertWithin(POLE, "drive_natural_hz", EXACT.driveFilterHz());
  }

  @Test
  void filtersOfTheChannelsAreTheCircuits() {
    assertWithin(POLE, "channel_pole_voltage_hz", EXACT.voltage().filterHz());
    assertWithin(POLE, "channel_pole_current_hz", EXACT.current().filterHz());
  }

  /** At least transistor gain; a virtual bridge must not be stronger than the real one. */
  @Test
  void bridgeGivesUpWhereTheCircuitsDoes() {
    assertWithin(POLE, "bridge_volt", EXACT.bridgeLimitVolt());
    assertWithin(POLE, "bridge_ampere", EXACT.bridgeLimitAmpere());
  }
}
