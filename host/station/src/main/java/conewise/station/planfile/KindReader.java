package conewise.station.planfile;

import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.Stated;
import conewise.station.keyedtext.Node;
import conewise.station.keyedtext.Problems;
import conewise.station.planfile.Fields.Range;
import conewise.station.planfile.QualitiesReader.Qualities;
import conewise.station.planfile.SuspensionReader.Suspension;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Reads a kind of driver: what of its datasheet a plan has. */
final class KindReader {
  /** What a plan may say of a kind of driver. */
  static final List<String> KEYS =
      List.of(
          "coils",
          "resonance",
          "mechanical_q",
          "electrical_q",
          "total_q",
          "equivalent_volume",
          "moving_mass",
          "compliance",
          "cone_area",
          "inductance");

  private static final int MOST_COILS = 4;
  private static final Range OHM = new Range(0.1, 1000);
  private static final Range AREA_M2 = new Range(1e-4, 2);
  private static final Range HENRY = new Range(1e-6, 1);

  private final Problems problems;

  KindReader(Problems problems) {
    this.problems = problems;
  }

  /**
   * Reads one.
   *
   * @param name its name
   * @param fields the group that has its keys; others may be there as well
   */
  Optional<DriverKind> read(String name, Fields fields) {
    List<Stated> coils = coils(fields);
    Optional<Figure> area = fields.figure("cone_area", Optional.of(Measure.AREA), AREA_M2);
    Suspension suspension = new SuspensionReader(fields, problems).read(area.map(Figure::value));
    Qualities qualities = new QualitiesReader(fields, problems).read();
    Optional<Stated> henry =
        fields
            .figure("inductance", Optional.of(Measure.INDUCTANCE), HENRY)
            .map(each -> each.stated(UsualSpread.INDUCTANCE));
    if (coils.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        new DriverKind(
            name,
            coils,
            suspension.resonanceHz(),
            qualities.mechanical(),
            qualities.electrical(),
            suspension.equivalentVolumeM3(),
            henry,
            area.map(each -> each.stated(UsualSpread.CONE_AREA))));
  }

  private List<Stated> coils(Fields fields) {
    Optional<Node> node =
        fields.required("coils", "the DC resistance of each voice coil, such as [3.6 ohm]");
    if (node.isEmpty()) {
      return List.of();
    }
    if (!(node.get() instanceof Node.Sequence list)
        || list.items().isEmpty()
        || list.items().size() > MOST_COILS) {
      problems.add(
          node.get().line(),
          fields.where("coils")
              + " is "
              + node.get().described()
              + "; allowed is a list of 1 to "
              + MOST_COILS
              + " resistances, such as [3.6 ohm, 3.6 ohm].");
      return List.of();
    }
    List<Stated> coils = new ArrayList<>();
    for (Node item : list.items()) {
      Fields.figure(fields.where("coils"), item, Optional.of(Measure.RESISTANCE), OHM, problems)
          .ifPresent(each -> coils.add(each.stated(UsualSpread.COIL)));
    }
    return coils.size() == list.items().size() ? coils : List.of();
  }
}
