package conewise.station.calculation;

import conewise.analysis.model.Air;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.vent.Mouth;
import conewise.analysis.vent.Mouth.Surround;
import conewise.analysis.vent.Section;
import conewise.analysis.vent.VentShape;
import conewise.analysis.vent.VentSpeed;
import conewise.station.planfile.Measure;
import java.util.List;
import java.util.OptionalDouble;

/** Length of a vent for a tuning, and tuning of a vent. */
final class VentCalculation implements Calculation {
  private static final Entry.Figure METRES = new Entry.Figure(Measure.LENGTH, 0.001, 5);
  private static final Entry.Figure GAP = new Entry.Figure(Measure.LENGTH, 0, 5);
  private static final String FREE = "free";
  private static final String FLUSH = "flush";
  private static final Entry.Choice ENDS = new Entry.Choice(List.of(FREE, FLUSH));

  private static final Entry VOLUME =
      Entry.required(
          "volume", "Net volume of the space", new Entry.Figure(Measure.VOLUME, 1e-4, 10));
  private static final Entry TUNING =
      Entry.optional("tuning", "The tuning wanted", new Entry.Figure(Measure.FREQUENCY, 1, 1000));
  private static final Entry LENGTH =
      Entry.optional("length", "In its place: the length of the vent there is", GAP);
  private static final Entry DIAMETER =
      Entry.optional("diameter", "Inner diameter of a round vent", METRES);
  private static final Entry WIDTH =
      Entry.optional("width", "In its place: inner width of a slot, along the wall", METRES);
  private static final Entry HEIGHT =
      Entry.optional("height", "Inner height of the slot, away from the wall", METRES);
  private static final Entry COUNT =
      Entry.usual("count", "How many like vents", new Entry.Whole(1, 8), "1");
  private static final Entry APART =
      Entry.optional(
          "apart", "From middle to middle of vents in a row, to count what they share", METRES);
  private static final Entry INSIDE =
      Entry.usual("inside", "The end in the box: free, or flush with a panel", ENDS, FREE);
  private static final Entry OUTSIDE = Entry.usual("outside", "The outer end", ENDS, FLUSH);
  private static final Entry INSIDE_GAP =
      Entry.optional(
          "inside-gap", "From the inner mouth's edge to a wall along the vent; 0 mm: on it", GAP);
  private static final Entry OUTSIDE_GAP =
      Entry.optional(
          "outside-gap", "From the outer mouth's edge to the floor or a wall; 0 mm: on it", GAP);
  private static final Entry DISPLACEMENT =
      Entry.optional(
          "displacement",
          "Volume that the cones move from rest to peak, for the air's speed in the vent",
          new Entry.Figure(Measure.VOLUME, 1e-6, 1));

  @Override
  public String name() {
    return "vent";
  }

  @Override
  public String title() {
    return "Length and tuning of a vent";
  }

  @Override
  public String about() {
    return "The length that gives a tuning, or the tuning that a length gives, with end corrections"
        + " by the shape of the mouth and what is near it (docs/calculations.md).";
  }

  @Override
  public List<String> sources() {
    return List.of(
        "Tuning: H. Helmholtz, 1860. Round mouth in a panel: Rayleigh, The Theory of Sound. Free"
            + " round end: H. Levine and J. Schwinger, Phys. Rev. 73, 1948.",
        "Slots by Rayleigh's integral in closed form (derived); free slots, walls as mirrors,"
            + " several vents as one: common practice.",
        "Least cross section: R. H. Small, J. Audio Eng. Soc. 21, 1973 (from memory).");
  }

  @Override
  public List<Entry> entries() {
    return List.of(
        VOLUME,
        TUNING,
        LENGTH,
        DIAMETER,
        WIDTH,
        HEIGHT,
        COUNT,
        APART,
        INSIDE,
        OUTSIDE,
        INSIDE_GAP,
        OUTSIDE_GAP,
        DISPLACEMENT,
        RoomEntries.TEMPERATURE,
        RoomEntries.HUMIDITY);
  }

  @Override
  public Worked work(Given given) throws BadEntryException {
    boolean wanted = given.oneOf(TUNING, LENGTH).equals(TUNING);
    double volume = given.value(VOLUME);
    VentShape shape = shape(given);
    Air air = RoomEntries.air(given);
    double length =
        wanted ? length(shape.lengthM(given.value(TUNING), volume, air)) : given.value(LENGTH);
    double tuning = wanted ? given.value(TUNING) : shape.tuningHz(length, volume, air);
    Worked.Sheet sheet = new Worked.Sheet();
    if (wanted) {
      addLength(sheet, shape, length);
    }
    sheet.row("tuning_hz", "Tuning", tuning, "Hz");
    addShape(sheet, shape, length, air);
    OptionalDouble displacement = given.figure(DISPLACEMENT);
    if (displacement.isPresent()) {
      addSpeed(sheet, shape.speed(tuning, displacement.getAsDouble(), air));
    }
    sheet.remark(
        "Cut it a little long, measure the box, and shorten it: stuffing near the mouth, bends and"
            + " corners move a tuning by some per cent.");
    return sheet.done();
  }

  private static double length(Outcome<Double> length) throws BadEntryException {
    if (length instanceof NoResult<Double> none) {
      String because = none.because();
      throw new BadEntryException(
          TUNING, Character.toUpperCase(because.charAt(0)) + because.substring(1) + ".");
    }
    return ((Found<Double>) length).value();
  }

  private static VentShape shape(Given given) throws BadEntryException {
    Section section = section(given);
    int count = given.whole(COUNT);
    OptionalDouble apart = given.figure(APART);
    if (apart.isPresent() && section instanceof Section.Round round) {
      if (apart.getAsDouble() < round.diameterM()) {
        throw new BadEntryException(
            APART,
            "apart is less than the diameter; vents side by side are at least a diameter apart from"
                + " middle to middle.");
      }
    }
    return new VentShape(
        section,
        count,
        mouth(given, INSIDE, INSIDE_GAP),
        mouth(given, OUTSIDE, OUTSIDE_GAP),
        apart);
  }

  private static Section section(Given given) throws BadEntryException {
    OptionalDouble diameter = given.figure(DIAMETER);
    OptionalDouble width = given.figure(WIDTH);
    OptionalDouble height = given.figure(HEIGHT);
    if (diameter.isPresent() && width.isEmpty() && height.isEmpty()) {
      return new Section.Round(diameter.getAsDouble());
    }
    if (diameter.isEmpty() && width.isPresent() && height.isPresent()) {
      return new Section.Slot(width.getAsDouble(), height.getAsDouble());
    }
    throw new BadEntryException(
        DIAMETER, "Give either diameter, for a round vent, or width and height, for a slot.");
  }

  private static Mouth mouth(Given given, Entry end, Entry gap) throws BadEntryException {
    Mouth mouth = Mouth.of(given.choice(end).equals(FLUSH) ? Surround.FLANGED : Surround.FREE);
    OptionalDouble metres = given.figure(gap);
    return metres.isPresent() ? mouth.beside(metres.getAsDouble()) : mouth;
  }

  private static void addLength(Worked.Sheet sheet, VentShape shape, double length) {
    sheet.row(
        "length_mm",
        shape.count() == 1 ? "Length of the vent" : "Length of each vent",
        Customary.MM * length,
        "mm",
        Customary.INCHES * length,
        "in");
  }

  private static void addShape(Worked.Sheet sheet, VentShape shape, double length, Air air) {
    double ducts = shape.ductsM3(length);
    double area = shape.count() * shape.section().areaM2();
    double ends = shape.endsM();
    sheet
        .row(
            "ends_mm",
            "What both ends add to the length",
            Customary.MM * ends,
            "mm",
            Customary.INCHES * ends,
            "in")
        .row(
            "area_cm2",
            "Cross section in all",
            Customary.CM2 * area,
            "cm2",
            Customary.SQUARE_INCHES * area,
            "sq in")
        .row(
            "ducts_litres",
            "Air in the ducts, not part of the space",
            Customary.LITRES * ducts,
            "litres",
            Customary.CUBIC_INCHES * ducts,
            "cu in")
        .row(
            "pipe_resonance_hz",
            "The duct rings by itself at",
            shape.pipeResonanceHz(length, air),
            "Hz");
  }

  private static void addSpeed(Worked.Sheet sheet, VentSpeed speed) {
    sheet
        .row(
            "air_speed_m_per_s",
            "Peak speed of the air in it",
            speed.peakMPerS(),
            "m/s",
            Customary.FEET * speed.peakMPerS(),
            "ft/s")
        .row(
            "air_speed_percent",
            "That over the speed of sound",
            Customary.PERCENT * speed.partOfSound(),
            "%")
        .row(
            "least_area_cm2",
            "Cross section by Small's rule, at least",
            Customary.CM2 * speed.leastAreaM2(),
            "cm2",
            Customary.SQUARE_INCHES * speed.leastAreaM2(),
            "sq in")
        .remark(
            speed.quiet()
                ? "The air stays below a twentieth of the speed of sound, above which a vent is"
                    + " heard (common practice), while the vent moves as much as the cones; near"
                    + " the tuning it may move more."
                : "The air is faster than a twentieth of the speed of sound: the vent will be heard"
                    + " (common practice); take a larger cross section, which asks for more"
                    + " length.");
  }
}
