package conewise.analysis.sound;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Air;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class MoistAirTest {

  /** Saturation pressures in pascal from steam tables, from memory; the formula keeps 0.2 %. */
  @ParameterizedTest
  @CsvSource({"0.01, 611.7", "10, 1228", "20, 2339", "30, 4247", "40, 7384"})
  void saturatedVapourHasThePressureOfSteamTables(double celsius, double pascal) {
    assertEquals(pascal, 101325 * MoistAir.saturationAtmospheres(celsius), 0.002 * pascal);
  }

  /**
   * Against the other way to it: O. Cramer's fit of the speed to real gases (J. Acoust. Soc. Am.
   * 93, 1993, eq. 15, from memory), its ratio of moist air to dry at 101 325 Pa with 314 parts in a
   * million of carbon dioxide. Worked with NumPy.
   */
  @ParameterizedTest
  @CsvSource({
    "0, 1, 1.000936",
    "10, 0.5, 1.000949",
    "20, 0.5, 1.001818",
    "20, 1, 1.003633",
    "30, 0.5, 1.003310",
    "30, 1, 1.006612"
  })
  void moistureSpeedsSoundUpAsMuchAsInRealAir(double celsius, double humidity, double ratio) {
    double moist = MoistAir.at(celsius, humidity).soundMPerS();
    assertEquals(ratio, moist / Air.at(celsius).soundMPerS(), 2.5e-4);
  }

  /** Speeds by the same fit: dry at 20 degrees 343.37 m/s; ours has its own 343.2. */
  @Test
  void itsSpeedIsThatOfRealAirToFiveInTenThousand() {
    assertEquals(343.991, MoistAir.at(20, 0.5).soundMPerS(), 5e-4 * 344);
    assertEquals(350.312, MoistAir.at(30, 0.5).soundMPerS(), 5e-4 * 350);
  }

  @Test
  void dryItIsTheAirOfAllOtherCalculations() {
    assertEquals(Air.at(25), MoistAir.at(25, 0));
  }

  /** A cubic metre of air at 20 degrees and 50 % weighs 1.199 kg (psychrometric tables, memory). */
  @Test
  void moistAirIsLighter() {
    assertEquals(1.199, MoistAir.at(20, 0.5).densityKgPerM3(), 0.0015);
    assertTrue(MoistAir.at(20, 1).densityKgPerM3() < MoistAir.at(20, 0).densityKgPerM3());
  }

  @Test
  void refusesWhatNoRoomHas() {
    String hot =
        assertThrows(IllegalArgumentException.class, () -> MoistAir.at(51, 0.5)).getMessage();
    assertTrue(hot.contains("51.0") && hot.contains("50.0"), hot);
    assertThrows(IllegalArgumentException.class, () -> MoistAir.at(20, 1.01));
    assertThrows(IllegalArgumentException.class, () -> MoistAir.at(Double.NaN, 0));
  }
}
