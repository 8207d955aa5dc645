package conewise.station.planfile;

import conewise.analysis.model.Air;
import conewise.analysis.model.Space;
import conewise.analysis.plan.PlannedBox.PlannedRadiator;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.analysis.plan.Stated;
import conewise.analysis.vent.Mouth;
import conewise.analysis.vent.Mouth.Surround;
import conewise.analysis.vent.Section;
import conewise.analysis.vent.VentShape;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import conewise.station.planfile.Fields.Range;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;

/** Reads spaces, vents and passive radiators. */
final class AirReader {
  static final List<String> SPACE_KEYS = List.of("name", "volume", "lined");
  static final List<String> VENT_KEYS = List.of("name", "behind", "before", "tuning", "size");
  static final List<String> SIZE_KEYS =
      List.of("diameter", "width", "height", "length", "count", "ends", "along_wall");
  static final List<String> RADIATOR_KEYS =
      List.of("name", "behind", "before", "resonance", "mechanical_q", "equivalent_volume");
  static final List<String> ENDS = List.of("one-flanged", "both-flanged", "free");

  private static final int MOST = 8;
  private static final Range VOLUME_M3 = new Range(1e-4, 10);
  private static final Range HERTZ = new Range(1, 1000);
  private static final Range QUALITY = new Range(0.5, 100);
  private static final Range METRE = new Range(0.001, 5);
  private static final Range COUNT = new Range(1, 8);

  private final Problems problems;
  private final Names names;

  /**
   * A reader.
   *
   * @param names takes the names of the parts
   */
  AirReader(Names names, Problems problems) {
    this.names = names;
    this.problems = problems;
  }

  List<PlannedSpace> spaces(Fields plan) {
    if (plan.optional("spaces").filter(Node::isEmptyList).isPresent()) {
      problems.add(
          plan.line("spaces"), "spaces is an empty list; for drivers in free air write box: none.");
    }
    return parts(
        plan,
        "spaces",
        SPACE_KEYS,
        fields ->
            names
                .fresh(fields)
                .map(name -> new PlannedSpace(name, volume(fields), fields.yes("lined"))));
  }

  /** The parts of one list that can be read; what is wrong with the others is noted. */
  private <T> List<T> parts(
      Fields plan, String key, List<String> keys, Function<Fields, Optional<T>> reader) {
    List<T> parts = new ArrayList<>();
    for (Node node : plan.list(key, MOST)) {
      Fields.of(key, node, keys, problems).flatMap(reader).ifPresent(parts::add);
    }
    return parts;
  }

  private static Optional<Stated> volume(Fields fields) {
    return fields
        .figure("volume", Optional.of(Measure.VOLUME), VOLUME_M3)
        .map(each -> each.stated(UsualSpread.VOLUME));
  }

  List<PlannedVent> vents(Fields plan, List<PlannedSpace> spaces) {
    return parts(plan, "vents", VENT_KEYS, fields -> vent(fields, spaces));
  }

  private Optional<PlannedVent> vent(Fields fields, List<PlannedSpace> spaces) {
    Optional<String> name = names.fresh(fields);
    Optional<String> behind = behind(fields, spaces);
    Optional<String> before = before(fields, behind, spaces);
    if (fields.has("tuning") && fields.has("size")) {
      problems.add(fields.line("size"), "vents has tuning and size; keep one of the two.");
    }
    Optional<Stated> tuning =
        fields
            .figure("tuning", Optional.of(Measure.FREQUENCY), HERTZ)
            .map(each -> each.stated(UsualSpread.VENT_TUNING))
            .or(() -> behind.flatMap(space -> tuningOfSize(fields, space, spaces)));
    return name.isPresent() && behind.isPresent() && before.isPresent()
        ? Optional.of(new PlannedVent(name.get(), behind.get(), before.get(), tuning))
        : Optional.empty();
  }

  private Optional<Stated> tuningOfSize(Fields vent, String behind, List<PlannedSpace> spaces) {
    Optional<Fields> size =
        vent.optional("size").flatMap(node -> Fields.of("vents.size", node, SIZE_KEYS, problems));
    if (size.isEmpty()) {
      return Optional.empty();
    }
    Optional<Stated> volume =
        spaces.stream()
            .filter(space -> space.name().equals(behind))
            .findFirst()
            .flatMap(PlannedSpace::volumeM3);
    if (volume.isEmpty()) {
      problems.add(
          size.get().line(),
          "vents.size gives a tuning only where the space "
              + behind
              + " has a volume; add it, or write tuning.");
      return Optional.empty();
    }
    return tuningHz(size.get(), volume.get().value())
        .filter(hertz -> isPlausible(hertz, size.get()))
        .map(hertz -> new Stated(hertz, UsualSpread.VENT_TUNING));
  }

  private boolean isPlausible(double hertz, Fields size) {
    if (!HERTZ.holds(hertz)) {
      problems.add(
          size.line(),
          String.format(
              Locale.ROOT,
              "vents.size tunes its space to %.3g Hz, out of range; allowed is %s.",
              hertz,
              Figure.allowedRange(Optional.of(Measure.FREQUENCY), HERTZ)));
    }
    return HERTZ.holds(hertz);
  }

  private Optional<Double> tuningHz(Fields size, double volumeM3) {
    Optional<Figure> length = size.exact("length", Optional.of(Measure.LENGTH), METRE);
    Optional<Section> section = section(size);
    int count = size.whole("count", COUNT).orElse(1);
    String ends =
        size.optional("ends").flatMap(node -> size.word("ends", node, ENDS)).orElse(ENDS.get(0));
    boolean alongWall = size.yes("along_wall");
    if (length.isEmpty() || section.isEmpty()) {
      problems.add(
          size.line(),
          "vents.size needs length and either diameter (round) or width and height (slot).");
      return Optional.empty();
    }
    Mouth inner = mouth(ends.equals("both-flanged"), alongWall);
    Mouth outer = mouth(!ends.equals("free"), alongWall);
    VentShape shape = VentShape.of(section.get(), count, inner, outer);
    return Optional.of(shape.tuningHz(length.get().value(), volumeM3, Air.AT_20_CELSIUS));
  }

  private static Optional<Section> section(Fields size) {
    Optional<Double> diameter = metres(size, "diameter");
    Optional<Double> width = metres(size, "width");
    Optional<Double> height = metres(size, "height");
    if (diameter.isPresent() && width.isEmpty() && height.isEmpty()) {
      return diameter.map(Section.Round::new);
    }
    return diameter.isEmpty() && width.isPresent() && height.isPresent()
        ? Optional.of(new Section.Slot(width.get(), height.get()))
        : Optional.empty();
  }

  private static Optional<Double> metres(Fields size, String key) {
    return size.exact(key, Optional.of(Measure.LENGTH), METRE).map(Figure::value);
  }

  private static Mouth mouth(boolean flanged, boolean alongWall) {
    Mouth mouth = Mouth.of(flanged ? Surround.FLANGED : Surround.FREE);
    return alongWall ? mouth.beside(0) : mouth;
  }

  List<PlannedRadiator> radiators(Fields plan, List<PlannedSpace> spaces) {
    return parts(plan, "passive_radiators", RADIATOR_KEYS, fields -> radiator(fields, spaces));
  }

  private Optional<PlannedRadiator> radiator(Fields fields, List<PlannedSpace> spaces) {
    Optional<String> name = names.fresh(fields);
    Optional<String> behind = behind(fields, spaces);
    Optional<String> before = before(fields, behind, spaces);
    Optional<Stated> resonance =
        fields
            .figure("resonance", Optional.of(Measure.FREQUENCY), HERTZ)
            .map(each -> each.stated(UsualSpread.RADIATOR));
    Optional<Stated> quality =
        fields
            .figure("mechanical_q", Optional.empty(), QUALITY)
            .map(each -> each.stated(UsualSpread.MECHANICAL_Q));
    Optional<Stated> volume =
        fields
            .figure("equivalent_volume", Optional.of(Measure.VOLUME), VOLUME_M3)
            .map(each -> each.stated(UsualSpread.RADIATOR));
    return name.isPresent() && behind.isPresent() && before.isPresent()
        ? Optional.of(
            new PlannedRadiator(name.get(), behind.get(), before.get(), resonance, quality, volume))
        : Optional.empty();
  }

  private Optional<String> behind(Fields fields, List<PlannedSpace> spaces) {
    List<String> known = spaces.stream().map(PlannedSpace::name).toList();
    String usual = known.size() == 1 ? known.get(0) : "";
    Optional<String> space = Names.space(fields, "behind", known, usual, problems);
    if (space.isPresent() && space.get().equals(Space.OUTSIDE)) {
      problems.add(fields.line(), fields.where("behind") + " must be a space of the box.");
      return Optional.empty();
    }
    return space;
  }

  private Optional<String> before(
      Fields fields, Optional<String> behind, List<PlannedSpace> spaces) {
    List<String> known = spaces.stream().map(PlannedSpace::name).toList();
    Optional<String> before = Names.space(fields, "before", known, Space.OUTSIDE, problems);
    if (before.isPresent() && before.equals(behind)) {
      problems.add(
          fields.line(),
          fields.where("before")
              + " is the space behind it, "
              + before.get()
              + "; they must differ.");
      return Optional.empty();
    }
    return before;
  }
}
