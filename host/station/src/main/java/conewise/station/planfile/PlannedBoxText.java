package conewise.station.planfile;

import conewise.analysis.model.Circuit;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Interval;
import conewise.analysis.plan.Demands;
import conewise.analysis.plan.DriverKind;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.PlannedBox.PlacedDriver;
import conewise.analysis.plan.PlannedBox.PlannedRadiator;
import conewise.analysis.plan.PlannedBox.PlannedSpace;
import conewise.analysis.plan.PlannedBox.PlannedVent;
import conewise.analysis.plan.Stated;
import conewise.station.files.BadFileException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * Writes a plan as YAML. Reading it again gives the same plan; a vent that was given by its size is
 * written by the tuning that followed from it.
 */
public final class PlannedBoxText {
  /** What YAML may take for something else than a text. */
  private static final String WORDS = "true|false|null|yes|no|on|off|y|n";

  private final StringBuilder text = new StringBuilder();

  private PlannedBoxText() {}

  /**
   * The text of a plan, its lines ending with LF.
   *
   * @throws IllegalArgumentException when the plan has what a file cannot say, such as a name with
   *     a full stop or a gap in its wiring
   */
  public static String write(PlannedBox plan) {
    String text = new PlannedBoxText().plan(plan);
    try {
      PlannedBoxFile.parse(plan.name() + ".yaml", text.lines().toList());
    } catch (BadFileException e) {
      throw new IllegalArgumentException(
          "the plan " + plan.name() + " cannot be written: " + e.getMessage(), e);
    }
    return text;
  }

  private String plan(PlannedBox plan) {
    line("plan: 2");
    line("name: " + quoted(plan.name()));
    list("driver_kinds", plan.kinds(), PlannedBoxText::kind);
    list("drivers", plan.drivers(), PlannedBoxText::driver);
    if (plan.spaces().isEmpty()) {
      line("box: none");
    }
    list("spaces", plan.spaces(), PlannedBoxText::space);
    list("vents", plan.vents(), PlannedBoxText::vent);
    list("passive_radiators", plan.radiators(), PlannedBoxText::radiator);
    line("wiring: " + wiring(plan.wiring()));
    if (plan.leadOhm() > 0) {
      line("leads: " + Measure.RESISTANCE.written(plan.leadOhm()));
    }
    limits(plan.demands());
    return text.toString();
  }

  private void line(String line) {
    text.append(line).append('\n');
  }

  private <T> void list(String key, List<T> parts, Function<T, String> written) {
    if (!parts.isEmpty()) {
      line(key + ":");
      parts.forEach(part -> line("  - {" + written.apply(part) + "}"));
    }
  }

  private static String kind(DriverKind kind) {
    String coils =
        kind.coilOhm().stream()
            .map(ohm -> Figure.written(ohm, Optional.of(Measure.RESISTANCE), UsualSpread.COIL))
            .collect(Collectors.joining(", ", "[", "]"));
    return joined(
        List.of(
            Optional.of("name: " + part(kind.name())),
            Optional.of("coils: " + coils),
            figure("resonance", kind.resonanceHz(), Measure.FREQUENCY, UsualSpread.RESONANCE),
            quality("mechanical_q", kind.mechanicalQ(), UsualSpread.MECHANICAL_Q),
            quality("electrical_q", kind.electricalQ(), UsualSpread.ELECTRICAL_Q),
            figure(
                "equivalent_volume",
                kind.equivalentVolumeM3(),
                Measure.VOLUME,
                UsualSpread.EQUIVALENT_VOLUME),
            figure("cone_area", kind.areaM2(), Measure.AREA, UsualSpread.CONE_AREA),
            figure(
                "inductance", kind.inductanceHenry(), Measure.INDUCTANCE, UsualSpread.INDUCTANCE)));
  }

  private static String driver(PlacedDriver driver) {
    return "name: "
        + part(driver.name())
        + ", kind: "
        + part(driver.kind())
        + ends(driver.behind(), driver.before());
  }

  private static String space(PlannedSpace space) {
    return joined(
        List.of(
            Optional.of("name: " + part(space.name())),
            figure("volume", space.volumeM3(), Measure.VOLUME, UsualSpread.VOLUME),
            space.lined() ? Optional.of("lined: yes") : Optional.empty()));
  }

  private static String vent(PlannedVent vent) {
    return joined(
        List.of(
            Optional.of("name: " + part(vent.name()) + ends(vent.behind(), vent.before())),
            figure("tuning", vent.tuningHz(), Measure.FREQUENCY, UsualSpread.VENT_TUNING)));
  }

  private static String radiator(PlannedRadiator radiator) {
    return joined(
        List.of(
            Optional.of(
                "name: " + part(radiator.name()) + ends(radiator.behind(), radiator.before())),
            figure("resonance", radiator.resonanceHz(), Measure.FREQUENCY, UsualSpread.RADIATOR),
            quality("mechanical_q", radiator.mechanicalQ(), UsualSpread.MECHANICAL_Q),
            figure(
                "equivalent_volume",
                radiator.equivalentVolumeM3(),
                Measure.VOLUME,
                UsualSpread.RADIATOR)));
  }

  private static String ends(String behind, String before) {
    return ", behind: "
        + part(behind)
        + (before.equals(Space.OUTSIDE) ? "" : ", before: " + part(before));
  }

  private static Optional<String> figure(
      String key, Optional<Stated> stated, Measure measure, double usualSpread) {
    return stated.map(each -> key + ": " + Figure.written(each, Optional.of(measure), usualSpread));
  }

  private static Optional<String> quality(String key, Optional<Stated> stated, double usualSpread) {
    return stated.map(each -> key + ": " + Figure.written(each, Optional.empty(), usualSpread));
  }

  private static String joined(List<Optional<String>> entries) {
    return entries.stream().flatMap(Optional::stream).collect(Collectors.joining(", "));
  }

  static String wiring(Circuit circuit) {
    if (circuit instanceof Circuit.Coil coil) {
      String leaf = coil.driver() + "." + coil.number();
      return coil.reversed() ? "{reversed: " + leaf + "}" : leaf;
    }
    if (circuit instanceof Circuit.Series series) {
      return "{series: " + parts(series.parts()) + "}";
    }
    if (circuit instanceof Circuit.Parallel parallel) {
      return "{parallel: " + parts(parallel.parts()) + "}";
    }
    throw new IllegalArgumentException(
        "the wiring of a plan has " + circuit + "; allowed are coils, series and parallel");
  }

  private static String parts(List<Circuit> parts) {
    return parts.stream().map(PlannedBoxText::wiring).collect(Collectors.joining(", ", "[", "]"));
  }

  private void limits(Demands demands) {
    List<String> limits = new ArrayList<>();
    demands
        .dcResistanceOhm()
        .ifPresentOrElse(
            ohm -> limits.add("dc_resistance: " + pair(ohm, Measure.RESISTANCE)),
            () -> limits.add("dc_tolerance: " + Figure.percent(demands.dcToleranceFraction())));
    demands
        .ratedImpedanceOhm()
        .ifPresent(ohm -> limits.add("rated_impedance: " + Measure.RESISTANCE.written(ohm)));
    bySpace("tuning", demands.tuningHz(), hz -> pair(hz, Measure.FREQUENCY)).ifPresent(limits::add);
    bySpace("closed_resonance", demands.closedResonanceHz(), hz -> pair(hz, Measure.FREQUENCY))
        .ifPresent(limits::add);
    bySpace("least_loss_q", demands.leastLossQ(), Fields::plain).ifPresent(limits::add);
    line("limits:");
    limits.forEach(limit -> line("  " + limit));
  }

  private static <T> Optional<String> bySpace(
      String key, Map<String, T> limits, Function<T, String> written) {
    return limits.isEmpty()
        ? Optional.empty()
        : Optional.of(
            new TreeMap<>(limits)
                .entrySet().stream()
                    .map(each -> part(each.getKey()) + ": " + written.apply(each.getValue()))
                    .collect(Collectors.joining(", ", key + ": {", "}")));
  }

  private static String pair(Interval interval, Measure measure) {
    return "{"
        + joined(
            List.of(end("low", interval.low(), measure), end("high", interval.high(), measure)))
        + "}";
  }

  private static Optional<String> end(String key, double value, Measure measure) {
    return Double.isInfinite(value)
        ? Optional.empty()
        : Optional.of(key + ": " + measure.written(value));
  }

  /** The name of a part, quoted where YAML would take it for something else. */
  private static String part(String name) {
    boolean plain = name.matches("[A-Za-z][A-Za-z0-9 _-]*") && !name.matches("(?i)(" + WORDS + ")");
    return plain ? name : quoted(name);
  }

  /** Between quotes, letters and plain signs as they are and all else as {@code \\uXXXX}. */
  private static String quoted(String words) {
    return words
        .chars()
        .mapToObj(each -> escaped((char) each))
        .collect(Collectors.joining("", "\"", "\""));
  }

  private static String escaped(char sign) {
    if (sign == '"' || sign == '\\') {
      return "\\" + sign;
    }
    return (sign >= ' ' && sign <= '~') || Character.isLetter(sign)
        ? String.valueOf(sign)
        : String.format(Locale.ROOT, "\\u%04x", (int) sign);
  }
}
