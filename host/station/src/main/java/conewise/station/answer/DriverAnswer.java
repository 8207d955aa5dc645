package conewise.station.answer;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.parameter.DriverFigures;
import conewise.station.card.Figures;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * A driver's parameters for a person and for a program, in the units that the trade uses.
 *
 * @param figures what was fitted
 * @param sweeps how many sweeps were fitted together
 * @param scaleUncertainty relative standard uncertainty of the curves' scale
 */
public record DriverAnswer(DriverFigures figures, int sweeps, double scaleUncertainty) {

  private record Line(
      String symbol, String name, String unit, double perUnit, Outcome<Estimate> figure) {}

  private List<Line> lines() {
    return List.of(
        new Line("Re", "DC resistance", "ohm", 1, figures.dcResistanceOhm()),
        new Line("fs", "resonance in free air", "Hz", 1, figures.resonanceHz()),
        new Line("Qms", "mechanical Q", "", 1, figures.mechanicalQ()),
        new Line("Qes", "electrical Q", "", 1, figures.electricalQ()),
        new Line("Qts", "total Q", "", 1, figures.totalQ()),
        new Line("L", "coil at 200 Hz, inductance", "mH", 1e3, figures.coilInductanceHenry()),
        new Line("R", "coil at 200 Hz, loss", "ohm", 1, figures.coilLossOhm()),
        new Line("Mms", "moving mass", "g", 1e3, figures.movingMassKg()),
        new Line("Cms", "compliance", "mm/N", 1e3, figures.complianceMPerN()),
        new Line("Rms", "mechanical loss", "kg/s", 1, figures.mechanicalLossNsPerM()),
        new Line("Bl", "force factor", "T m", 1, figures.forceFactorTm()),
        new Line("Vas", "equivalent volume", "litres", 1e3, figures.equivalentVolumeM3()),
        new Line("Sd", "area of the cone", "cm2", 1e4, figures.areaM2()));
  }

  private static Reading reading(Estimate estimate, Line line) {
    Estimate scaled = estimate.times(line.perUnit());
    return new Reading(scaled.value(), scaled.interval(), line.unit());
  }

  /** Lines for a person: each figure with its interval, then what could not be had and why. */
  public List<String> text() {
    List<String> text = new ArrayList<>();
    text.add(
        sweeps == 1 ? "A driver, from one sweep" : "A driver, from " + sweeps + " sweeps together");
    text.add("");
    for (Line line : lines()) {
      if (line.figure() instanceof Found<Estimate> found) {
        Reading reading = reading(found.value(), line);
        text.add(
            String.format(
                Locale.ROOT,
                "  %-4s %-27s %-14s %s",
                line.symbol(),
                line.name(),
                Figures.value(reading),
                Figures.interval(reading)));
      }
    }
    text.add("");
    text.add("The last column holds the true value with a probability of about 95 %.");
    lines().stream()
        .filter(line -> line.figure() instanceof NoResult<Estimate>)
        .map(line -> (NoResult<Estimate>) line.figure())
        .map(NoResult::because)
        .distinct()
        .forEach(because -> text.add("Not told: " + because + "."));
    if (scaleUncertainty > 0) {
      text.add(
          String.format(
              Locale.ROOT,
              "The curves' scale has a standard uncertainty of %.2g %%, which Re and Bl carry.",
              100 * scaleUncertainty));
    }
    return text;
  }

  /** The same for a program, in the units named. */
  public ObjectNode json() {
    ObjectNode answer = JsonAnswer.of("fit", ExitCode.PASS);
    answer.put("sweeps", sweeps);
    answer.put("curve_scale_standard_uncertainty", scaleUncertainty);
    ArrayNode list = answer.putArray("figures");
    for (Line line : lines()) {
      ObjectNode node = list.addObject().put("symbol", line.symbol()).put("name", line.name());
      if (line.figure() instanceof Found<Estimate> found) {
        Reading reading = reading(found.value(), line);
        node.put("value", reading.value()).put("unit", reading.unit());
        node.set("interval", JsonAnswer.interval(reading.interval()));
      } else {
        node.put("no_value_because", ((NoResult<Estimate>) line.figure()).because());
      }
    }
    return answer;
  }
}
