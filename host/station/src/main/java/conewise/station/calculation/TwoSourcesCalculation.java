package conewise.station.calculation;

import conewise.analysis.model.Air;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.sound.Travel;
import conewise.analysis.sound.TwoSources;
import conewise.station.planfile.Measure;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Level of two sources against their phase. */
final class TwoSourcesCalculation implements Calculation {
  private static final int STEP_DEGREES = 15;
  private static final int HALF_TURN = 180;

  private static final Entry SECOND =
      Entry.usual(
          "second",
          "Level of the second source alone against the first alone",
          new Entry.Figure(Measure.LEVEL, -100, 100),
          "0 dB");
  private static final Entry PHASE =
      Entry.optional("phase", "How far it lags", new Entry.Figure(Measure.PHASE, -36_000, 36_000));

  @Override
  public String name() {
    return "two-sources";
  }

  @Override
  public String title() {
    return "Level of two sources against their phase";
  }

  @Override
  public String about() {
    return "How loud one tone of two sources is together, at each phase between them. One of two"
        + " like drivers wired backwards is half a turn. All levels are against the first"
        + " source alone.";
  }

  @Override
  public List<String> sources() {
    return List.of("The pressures of two like tones add as arrows do (superposition).");
  }

  @Override
  public List<Entry> entries() {
    return List.of(
        SECOND,
        PHASE,
        DelayCalculation.DISTANCE,
        DelayCalculation.DELAY,
        DelayCalculation.FREQUENCY,
        RoomEntries.TEMPERATURE,
        RoomEntries.HUMIDITY);
  }

  @Override
  public Worked work(Given given) throws BadEntryException {
    TwoSources sources = new TwoSources(given.value(SECOND));
    Worked.Sheet sheet = new Worked.Sheet();
    Optional<Double> degrees = degrees(given);
    if (degrees.isPresent()) {
      sheet.row("phase_deg", "Phase between them", degrees.get(), "deg");
      row(sheet, "level_db", "Level of both there", sources.sumDecibel(degrees.get()));
    }
    sheet.row("most_db", "In step, at most", sources.mostDecibel(), "dB");
    row(sheet, "least_db", "Half a turn apart, at least", sources.leastDecibel());
    sheet.table(
        List.of(
            new Worked.Column("phase_deg", "phase", "deg"),
            new Worked.Column("level_db", "level", "dB")),
        table(sources));
    sheet.remark(
        "Of one tone at one place, without a room. Sources that have nothing to do with one another"
            + " add their powers instead: two alike make 3.01 dB.");
    return sheet.done();
  }

  private static void row(Worked.Sheet sheet, String id, String label, Outcome<Double> decibel) {
    sheet.row(id, label, decibel, "dB", Optional.empty());
  }

  private static List<List<Worked.Cell>> table(TwoSources sources) {
    List<List<Worked.Cell>> cells = new ArrayList<>();
    for (int degrees = 0; degrees <= HALF_TURN; degrees += STEP_DEGREES) {
      Outcome<Double> decibel = sources.sumDecibel(degrees);
      Worked.Cell cell =
          decibel instanceof Found<Double> found
              ? new Worked.Value(found.value())
              : new Worked.Words("nothing left");
      cells.add(List.of(new Worked.Value(degrees), cell));
    }
    return cells;
  }

  private static Optional<Double> degrees(Given given) throws BadEntryException {
    boolean path = given.has(DelayCalculation.DISTANCE) || given.has(DelayCalculation.DELAY);
    if (!path && !given.has(PHASE)) {
      if (given.has(DelayCalculation.FREQUENCY)) {
        throw new BadEntryException(
            DelayCalculation.FREQUENCY,
            "frequency makes a phase only of a distance or a delay; give one of them, or phase.");
      }
      return Optional.empty();
    }
    Entry asked = given.oneOf(PHASE, DelayCalculation.DISTANCE, DelayCalculation.DELAY);
    if (asked.equals(PHASE)) {
      return Optional.of(given.value(PHASE));
    }
    if (!given.has(DelayCalculation.FREQUENCY)) {
      throw new BadEntryException(
          DelayCalculation.FREQUENCY,
          asked.name() + " makes a phase only at a frequency; give frequency as well.");
    }
    Air air = RoomEntries.air(given);
    Travel travel = DelayCalculation.travel(given, air);
    return Optional.of(travel.at(given.value(DelayCalculation.FREQUENCY), air).lagDegrees());
  }
}
