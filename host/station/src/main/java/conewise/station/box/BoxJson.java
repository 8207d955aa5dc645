package conewise.station.box;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.fit.Discrepancy;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.driver.DriverFigure;
import conewise.station.driver.DriverJson;
import java.util.List;
import java.util.Locale;

/** A fitted box's figures for programs, as docs/schemas/answer-1.json lays down. */
public final class BoxJson {
  private BoxJson() {}

  /** The whole answer. */
  public static ObjectNode write(BoxAnswer box) {
    ObjectNode answer = JsonAnswer.of("fit", ExitCode.PASS);
    answer.put("plan", box.plan().name());
    answer.put("sweeps", box.sweeps().size());
    answer.put("curve_scale_standard_uncertainty", FitRemarks.scaleUncertainty(box.sweeps()));
    answer.put("scale", box.fitted().fit().scale());
    ArrayNode fitted = answer.putArray("fitted");
    for (int i = 0; i < box.sweeps().size(); i++) {
      ImpedanceCurve used = box.fitted().fit().sweeps().get(i).curve();
      sweep(fitted.addObject(), box.sweeps().get(i), used);
    }
    ArrayNode groups = answer.putArray("parts");
    box.groups().forEach(group -> group(groups.addObject(), group));
    answer.put("residual_rms_relative", box.fitted().fit().relativeResidual());
    discrepancy(answer.putObject("discrepancy"), box.fitted().fit().discrepancy());
    ArrayNode open = answer.putArray("open_sets");
    for (OpenSet set : box.openSets()) {
      ObjectNode node = open.addObject();
      texts(node.putArray("unknowns"), set.unknowns());
      texts(node.putArray("settled_by"), set.settledBy());
      texts(node.putArray("narrowed_by"), set.narrowedBy());
    }
    texts(answer.putArray("notes"), box.remarks());
    return answer;
  }

  private static void sweep(ObjectNode node, BoxSweep sweep, ImpedanceCurve used) {
    node.put("file", sweep.file().toString()).put("state", sweep.machineWord());
    if (!sweep.part().isEmpty()) {
      node.put("part", sweep.part());
    }
    node.put("points", used.points().size())
        .put("lowest_hz", used.lowestHz())
        .put("highest_hz", used.highestHz())
        .put("scale_standard_uncertainty", used.scaleUncertainty());
  }

  private static void group(ObjectNode node, FigureGroup group) {
    node.put("kind", group.kind().name().toLowerCase(Locale.ROOT));
    texts(node.putArray("names"), group.names());
    ArrayNode figures = node.putArray("figures");
    for (DriverFigure figure : group.figures()) {
      DriverJson.figure(figures.addObject(), figure);
    }
    if (!group.readings().isEmpty()) {
      ArrayNode readings = node.putArray("tuning_readings");
      group.readings().forEach(reading -> reading(readings.addObject(), reading));
    }
  }

  private static void reading(ObjectNode node, TuningReading reading) {
    node.put("name", reading.name()).put("bias", reading.bias());
    if (reading.hertz() instanceof Outcome.Found<Double> found) {
      node.put("hz", found.value());
    } else if (reading.hertz() instanceof Outcome.NoResult<Double> none) {
      node.put("no_value_because", none.because());
    }
  }

  private static void discrepancy(ObjectNode node, Discrepancy off) {
    node.put("scattered", off.scattered())
        .put("smooth", off.smooth())
        .put("suspension_per_root_octave", off.suspension())
        .put("coil_per_root_octave", off.coil());
  }

  private static void texts(ArrayNode array, List<String> texts) {
    texts.forEach(array::add);
  }
}
