package conewise.station.calculation;

import conewise.analysis.model.Air;
import conewise.analysis.sound.Travel;
import conewise.station.planfile.Measure;
import java.util.List;

/** Delay, distance and phase. */
final class DelayCalculation implements Calculation {
  static final Entry DISTANCE =
      Entry.optional(
          "distance", "How much farther sound goes", new Entry.Figure(Measure.LENGTH, 0, 10_000));
  static final Entry DELAY =
      Entry.optional(
          "delay", "In its place: how much later it is", new Entry.Figure(Measure.TIME, 0, 30));
  static final Entry FREQUENCY =
      Entry.optional(
          "frequency", "For its phase there", new Entry.Figure(Measure.FREQUENCY, 0.1, 100_000));
  private static final Entry PHASE =
      Entry.optional(
          "phase",
          "In place of both, with frequency: how far it should lag",
          new Entry.Figure(Measure.PHASE, 0, 36_000));

  @Override
  public String name() {
    return "delay";
  }

  @Override
  public String title() {
    return "Delay, distance and phase";
  }

  @Override
  public String about() {
    return "How long sound takes for a distance, how far it gets in a time, and what that is in"
        + " phase at a frequency.";
  }

  @Override
  public List<String> sources() {
    return List.of(
        "Speed of sound: ISO 9613-1; the part of water with its annex B (from memory), held against"
            + " O. Cramer, J. Acoust. Soc. Am. 93, 1993.",
        "Phase: 360 degrees for each period that the sound is late.");
  }

  @Override
  public List<Entry> entries() {
    return List.of(
        DISTANCE, DELAY, PHASE, FREQUENCY, RoomEntries.TEMPERATURE, RoomEntries.HUMIDITY);
  }

  @Override
  public Worked work(Given given) throws BadEntryException {
    Entry asked = given.oneOf(DISTANCE, DELAY, PHASE);
    if (asked.equals(PHASE) && !given.has(FREQUENCY)) {
      throw new BadEntryException(
          FREQUENCY, "A phase is a delay only at a frequency; give frequency as well.");
    }
    Air air = RoomEntries.air(given);
    Travel travel =
        asked.equals(PHASE)
            ? Travel.turning(given.value(PHASE), given.value(FREQUENCY), air)
            : travel(given, air);
    Worked.Sheet sheet = new Worked.Sheet();
    sheet
        .row(
            "distance_m",
            "Distance",
            travel.distanceM(),
            "m",
            Customary.FEET * travel.distanceM(),
            "ft")
        .row("delay_ms", "Delay", Customary.MS * travel.delaySeconds(), "ms")
        .row(
            "sound_m_per_s",
            "Speed of sound",
            air.soundMPerS(),
            "m/s",
            Customary.FEET * air.soundMPerS(),
            "ft/s");
    if (given.has(FREQUENCY)) {
      addPhase(sheet, travel.at(given.value(FREQUENCY), air));
    }
    return sheet.done();
  }

  /** By distance where there is one, else by delay. */
  static Travel travel(Given given, Air air) throws BadEntryException {
    return given.has(DISTANCE)
        ? Travel.over(given.value(DISTANCE), air)
        : Travel.during(given.value(DELAY), air);
  }

  private static void addPhase(Worked.Sheet sheet, Travel.Phase phase) {
    sheet
        .row("frequency_hz", "At the frequency", phase.frequencyHz(), "Hz")
        .row(
            "wavelength_m",
            "Wavelength",
            phase.wavelengthM(),
            "m",
            Customary.FEET * phase.wavelengthM(),
            "ft")
        .row("periods", "Periods late", phase.turns(), "")
        .row("lag_deg", "Lag, whole periods left out", phase.lagDegrees(), "deg");
  }
}
