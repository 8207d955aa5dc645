package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.JsonAnswer;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import conewise.station.records.BoxRun;
import conewise.station.records.JigUsed;
import conewise.station.records.KeptRun;

/** A kept run for programs: how it was kept, and under {@code judged} what the bench answered. */
final class KeptRunJson {
  private KeptRunJson() {}

  static void write(ObjectNode to, KeptRun kept, JobCard card) {
    BoxRun run = kept.run();
    to.put("run", kept.id()).put("job", run.job()).put("serial", run.serial());
    to.put("attempt", kept.attempt()).put("limits_version", kept.limitsVersion());
    to.put("plan_sha256", run.plan().hash());
    run.operator().ifPresent(name -> to.put("operator", name));
    to.put("station", run.station()).put("software", run.software());
    to.put("started", run.started().toString()).put("finished", run.finished().toString());
    write(to.putObject("jig"), run.jig());
    ArrayNode estimates = to.putArray("estimates");
    run.estimates()
        .forEach(
            each ->
                estimates
                    .addObject()
                    .put("name", each.name())
                    .put("value", each.estimate().value())
                    .put("low", each.estimate().interval().low())
                    .put("high", each.estimate().interval().high())
                    .put("unit", each.unit()));
    ArrayNode sightings = to.putArray("sightings");
    run.sightings().forEach(each -> sightings.add(each.words()));
    ArrayNode judgements = to.putArray("judgements");
    kept.judgements()
        .forEach(
            each ->
                judgements
                    .addObject()
                    .put("number", each.number())
                    .put("limits_version", each.limitsVersion())
                    .put("at", each.at().toString())
                    .put("decision", VerdictSign.of(each.verdict().decision()).machineWord())
                    .put("headline", each.verdict().headline()));
    ArrayNode overrulings = to.putArray("overrulings");
    kept.overrulings()
        .forEach(
            each ->
                overrulings
                    .addObject()
                    .put("at", each.at().toString())
                    .put("by", each.by())
                    .put("decision", VerdictSign.of(each.decision()).machineWord())
                    .put("reason", each.reason()));
    to.set("judged", JsonAnswer.judged("check", card));
  }

  private static void write(ObjectNode to, JigUsed jig) {
    jig.serial().ifPresent(serial -> to.put("serial", serial));
    to.put("board", jig.board()).put("firmware", jig.firmware());
    jig.calibration().ifPresent(words -> to.put("calibration", words));
    jig.temperatureC().ifPresent(degrees -> to.put("temperature_c", degrees));
  }
}
