package conewise.station.driver;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;

/** A driver's parameters for programs, as docs/schemas/answer-1.json lays down. */
public final class DriverJson {
  private DriverJson() {}

  /** The whole answer. */
  public static ObjectNode write(BareDriver driver) {
    ObjectNode answer = JsonAnswer.of("fit", ExitCode.PASS);
    answer.put("sweeps", driver.sweeps().size());
    answer.put("curve_scale_standard_uncertainty", driver.scaleUncertainty());
    ArrayNode fitted = answer.putArray("fitted");
    driver.sweeps().forEach(sweep -> sweep(fitted.addObject(), sweep));
    ArrayNode figures = answer.putArray("figures");
    driver.figures().forEach(figure -> figure(figures.addObject(), figure));
    ArrayNode notes = answer.putArray("notes");
    driver.notes().forEach(notes::add);
    return answer;
  }

  private static void sweep(ObjectNode node, DriverSweep sweep) {
    node.put("file", sweep.file().toString());
    if (sweep.state() instanceof DriverState.WithMass mass) {
      node.put("state", "with-mass").put("mass_gram", mass.gram());
    } else if (sweep.state() instanceof DriverState.InBox box) {
      node.put("state", "in-box").put("volume_litre", box.litre());
    } else {
      node.put("state", "free-air");
    }
    node.put("points", sweep.curve().points().size())
        .put("lowest_hz", sweep.curve().lowestHz())
        .put("highest_hz", sweep.curve().highestHz())
        .put("scale_standard_uncertainty", sweep.curve().scaleUncertainty());
  }

  /** Writes one figure into an object. */
  public static void figure(ObjectNode node, DriverFigure figure) {
    node.put("symbol", figure.symbol()).put("name", figure.name()).put("unit", figure.unit());
    if (figure.outcome() instanceof Outcome.Found<Estimate> found) {
      Estimate estimate = found.value();
      node.put("value", estimate.value()).put("given", figure.given());
      node.putObject("interval")
          .put("low", estimate.interval().low())
          .put("high", estimate.interval().high());
    } else if (figure.outcome() instanceof Outcome.NoResult<Estimate> none) {
      node.put("no_value_because", none.because());
    }
  }
}
