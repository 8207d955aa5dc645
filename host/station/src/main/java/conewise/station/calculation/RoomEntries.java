package conewise.station.calculation;

import conewise.analysis.model.Air;
import conewise.analysis.sound.MoistAir;
import conewise.station.planfile.Measure;

/** The air that a calculation takes. */
final class RoomEntries {
  private static final double PERCENT = 100;

  static final Entry.Figure CELSIUS =
      new Entry.Figure(Measure.TEMPERATURE, MoistAir.LOWEST_CELSIUS, MoistAir.HIGHEST_CELSIUS);

  static final Entry TEMPERATURE =
      Entry.usual("temperature", "Temperature of the air", CELSIUS, "20 C");
  static final Entry HUMIDITY =
      Entry.usual("humidity", "Relative humidity", new Entry.Percent(0, PERCENT), "0 %");

  private RoomEntries() {}

  static Air air(Given given) throws BadEntryException {
    return MoistAir.at(given.value(TEMPERATURE), given.fraction(HUMIDITY));
  }
}
