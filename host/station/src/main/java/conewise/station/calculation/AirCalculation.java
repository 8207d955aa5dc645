package conewise.station.calculation;

import conewise.analysis.model.Air;
import conewise.analysis.sound.MoistAir;
import conewise.analysis.vent.TuningByAir;
import conewise.station.planfile.Measure;
import java.util.ArrayList;
import java.util.List;

/** A tuning against the temperature of the air. */
final class AirCalculation implements Calculation {
  private static final int MOST_ROWS = 100;
  private static final double ROUNDING = 1e-9;

  private static final Entry TUNING =
      Entry.required("tuning", "The tuning as known", new Entry.Figure(Measure.FREQUENCY, 1, 1000));
  private static final Entry KNOWN =
      Entry.usual("known-at", "Temperature at which it is known", RoomEntries.CELSIUS, "20 C");
  private static final Entry KNOWN_HUMIDITY =
      Entry.usual("known-humidity", "Relative humidity there", new Entry.Percent(0, 100), "0 %");
  private static final Entry FROM =
      Entry.usual("from", "Lowest temperature of the table", RoomEntries.CELSIUS, "0 C");
  private static final Entry TO =
      Entry.usual("to", "Highest temperature of the table", RoomEntries.CELSIUS, "40 C");
  private static final Entry ROWS =
      Entry.usual("rows", "How many temperatures", new Entry.Whole(2, MOST_ROWS), "9");

  private static final List<Worked.Column> COLUMNS =
      List.of(
          new Worked.Column("celsius", "air", "C"),
          new Worked.Column("fahrenheit", "air", "F"),
          new Worked.Column("sound_m_per_s", "sound", "m/s"),
          new Worked.Column("density_kg_per_m3", "density", "kg/m3"),
          new Worked.Column("tuning_hz", "tuning", "Hz"),
          new Worked.Column("change_percent", "change", "%"));

  @Override
  public String name() {
    return "air";
  }

  @Override
  public String title() {
    return "Tuning against the temperature of the air";
  }

  @Override
  public String about() {
    return "What a box whose tuning is known at one temperature is tuned to at others, with the"
        + " speed of sound: the tuning goes with it.";
  }

  @Override
  public List<String> sources() {
    return List.of(
        "Speed of sound: ISO 9613-1; the part of water with its annex B (from memory), held against"
            + " O. Cramer, J. Acoust. Soc. Am. 93, 1993.");
  }

  @Override
  public List<Entry> entries() {
    return List.of(TUNING, KNOWN, KNOWN_HUMIDITY, FROM, TO, ROWS, RoomEntries.HUMIDITY);
  }

  @Override
  public Worked work(Given given) throws BadEntryException {
    double tuning = given.value(TUNING);
    Air known = MoistAir.at(given.value(KNOWN), given.fraction(KNOWN_HUMIDITY));
    double from = given.value(FROM);
    double to = given.value(TO);
    double humidity = given.fraction(RoomEntries.HUMIDITY);
    if (to - from < ROUNDING) {
      throw new BadEntryException(
          TO,
          "from is "
              + given.words(FROM)
              + " and to is "
              + given.words(TO)
              + "; to must be warmer.");
    }
    int rows = given.whole(ROWS);
    List<List<Worked.Cell>> cells = new ArrayList<>();
    for (int i = 0; i < rows; i++) {
      double celsius = Math.min(to, from + (to - from) * i / (rows - 1));
      cells.add(row(celsius, TuningByAir.of(tuning, known, MoistAir.at(celsius, humidity))));
    }
    return new Worked.Sheet()
        .row("tuning_hz", "Tuning as known", tuning, "Hz")
        .row(
            "sound_m_per_s",
            "Speed of sound there",
            known.soundMPerS(),
            "m/s",
            Customary.FEET * known.soundMPerS(),
            "ft/s")
        .table(COLUMNS, cells)
        .remark(
            "Only the air is counted. A cold suspension is stiffer as well, so a driver's own"
                + " resonance and the peaks of the curve move more than the tuning (common"
                + " practice).")
        .done();
  }

  private static List<Worked.Cell> row(double celsius, TuningByAir there) {
    return List.of(
        new Worked.Value(celsius),
        new Worked.Value(Customary.fahrenheit(celsius)),
        new Worked.Value(there.air().soundMPerS()),
        new Worked.Value(there.air().densityKgPerM3()),
        new Worked.Value(there.tuningHz()),
        new Worked.Value(Customary.PERCENT * (there.factor() - 1)));
  }
}
