package conewise.station.prediction;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.prediction.CurveShape;
import conewise.analysis.prediction.Prospect;
import conewise.analysis.prediction.Telling;
import conewise.analysis.prediction.WiringSlip;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.chart.Lead;
import conewise.station.chart.WiringPicture;
import java.util.List;
import java.util.Locale;

/** A prediction for programs, as docs/schemas/answer-1.json lays down. */
public final class PredictionJson {
  private PredictionJson() {}

  /** The whole answer. */
  public static ObjectNode write(PredictionAnswer answer) {
    ObjectNode json = JsonAnswer.of("predict", ExitCode.PASS);
    json.put("plan", answer.prediction().plan().name());
    json.put("boxes", answer.boxes()).put("seed", answer.seed());
    ObjectNode good = json.putObject("good");
    shape(good, answer.prediction().goodShape());
    curve(good, answer.prediction().good());
    ArrayNode sets = json.putArray("faults");
    answer.prospects().forEach(each -> prospect(sets.addObject(), each));
    interval(json.putObject("dc_allowed_ohm"), answer.prediction().allowedOhm());
    ArrayNode slips = json.putArray("dc_resistances");
    answer.prediction().slips().forEach(slip -> slip(slips.addObject(), slip));
    ArrayNode leads = json.putArray("leads");
    WiringPicture.leads(answer.prediction().plan().wiring())
        .forEach(lead -> lead(leads.addObject(), lead));
    return json;
  }

  private static void prospect(ObjectNode node, NamedProspect named) {
    Prospect prospect = named.prospect();
    node.put("name", named.name());
    ids(node.putArray("ids"), prospect.faults());
    node.put("sentence", named.faults());
    Telling telling = prospect.telling();
    node.put("shown", machineWord(telling.kind()));
    if (telling.drawn() > 0) {
      node.put("told", telling.told())
          .put("drawn", telling.drawn())
          .put("nearest_sigmas", telling.nearestSigmas());
    }
    if (prospect.shape() instanceof NoResult<CurveShape> none) {
      node.put("no_curve_because", none.because());
    } else if (prospect.shape() instanceof Found<CurveShape> found) {
      prospect.timesGood().ifPresent(times -> node.put("times_good", times));
      shape(node, found.value());
      curve(node, ((Found<ImpedanceCurve>) prospect.curve()).value());
    }
    if (!prospect.unseen().isEmpty()) {
      ArrayNode unseen = node.putArray("shown_by");
      for (Prospect.Unseen each : prospect.unseen()) {
        ObjectNode one = unseen.addObject().put("id", each.fault().id());
        texts(one.putArray("tests"), each.tests());
      }
    }
  }

  private static String machineWord(Telling.Kind kind) {
    return kind.name().toLowerCase(Locale.ROOT);
  }

  private static void shape(ObjectNode node, CurveShape shape) {
    ArrayNode peaks = node.putArray("peaks");
    shape.peaks().forEach(peak -> place(peaks.addObject(), peak));
    place(node.putObject("lowest"), shape.lowest());
    node.put("dc_ohm", shape.dcOhm());
  }

  private static void place(ObjectNode node, CurveShape.Place place) {
    node.put("frequency_hz", place.frequencyHz()).put("modulus_ohm", place.modulusOhm());
  }

  private static void curve(ObjectNode node, ImpedanceCurve curve) {
    ArrayNode points = node.putArray("curve");
    curve
        .points()
        .forEach(
            point ->
                points
                    .addObject()
                    .put("frequency_hz", point.frequencyHz())
                    .put("resistance_ohm", point.resistanceOhm())
                    .put("reactance_ohm", point.reactanceOhm()));
  }

  private static void slip(ObjectNode node, WiringSlip slip) {
    node.put("id", slip.fault().id());
    if (Double.isInfinite(slip.ohm())) {
      node.put("open", true);
    } else {
      node.put("open", false).put("ohm", slip.ohm());
      interval(node.putObject("range_ohm"), slip.range());
    }
    node.put("meter", slip.meter().name().toLowerCase(Locale.ROOT));
  }

  /** An end that is left out is open. */
  private static void interval(ObjectNode node, Interval interval) {
    if (!Double.isInfinite(interval.low())) {
      node.put("low", interval.low());
    }
    if (!Double.isInfinite(interval.high())) {
      node.put("high", interval.high());
    }
  }

  private static void lead(ObjectNode node, Lead lead) {
    node.put("letter", lead.letter()).put("colour", lead.colour().words());
    texts(node.putArray("ends"), lead.ends());
  }

  private static void ids(ArrayNode array, List<Fault> faults) {
    faults.forEach(fault -> array.add(fault.id()));
  }

  private static void texts(ArrayNode array, List<String> texts) {
    texts.forEach(array::add);
  }
}
