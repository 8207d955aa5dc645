package conewise.analysis.parameter;

import conewise.analysis.nodal.NodalBox;

/**
 * Two like drivers in a vented box, by the tests' own node equations: 60 litres, 34 Hz, fs 32 Hz.
 */
final class VentedPair {
  static final double TUNING = 34;
  static final double VOLUME = 0.060;
  private static final double BULK = 1.204 * 343.2 * 343.2;

  private VentedPair() {}

  static NodalBox truth(boolean vented) {
    NodalBox box = new NodalBox();
    NodalBox.Space space = new NodalBox.Space();
    space.volume = VOLUME;
    space.tuningHz = vented ? TUNING : 0;
    // The leak's resistance is the same with the vent closed: quality 12 at 34 Hz.
    space.leakResistance = 12 / (2 * Math.PI * 34 * VOLUME / BULK);
    space.ventQuality = 60;
    box.spaces.add(space);
    for (int i = 0; i < 2; i++) {
      NodalBox.Driver driver = new NodalBox.Driver();
      driver.mass = 0.060;
      driver.compliance = 1 / (Math.pow(2 * Math.PI * 32, 2) * 0.060);
      driver.area = 0.033;
      driver.loss = 2 * Math.PI * 32 * 0.060 / 6;
      NodalBox.Coil coil = new NodalBox.Coil();
      coil.resistance = 7;
      coil.force = Math.sqrt(2 * Math.PI * 32 * 0.060 * 7 / 0.45);
      coil.lossyK = 0.02;
      coil.lossyN = 0.7;
      coil.from = 1;
      coil.to = 0;
      driver.coils.add(coil);
      box.drivers.add(driver);
    }
    return box;
  }

  static double vasM3() {
    double compliance = 1 / (Math.pow(2 * Math.PI * 32, 2) * 0.060);
    return BULK * 0.033 * 0.033 * compliance;
  }
}
