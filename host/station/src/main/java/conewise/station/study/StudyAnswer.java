package conewise.station.study;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.diagnosis.Alternative;
import conewise.station.answer.JsonAnswer;
import conewise.station.card.VerdictSign;
import conewise.station.study.StudyReading.Figure;
import java.util.ArrayList;
import java.util.List;

/** What a study found: for a person a table and the surprises, for a program every case. */
public final class StudyAnswer {
  private final long seed;
  private final List<StudyCase> cases;

  StudyAnswer(long seed, List<StudyCase> cases) {
    this.seed = seed;
    this.cases = List.copyOf(cases);
  }

  /** Lines for a person: of one case its whole story, of several the table. */
  public List<String> lines() {
    if (cases.size() == 1) {
      return CaseStory.lines(cases.get(0));
    }
    List<String> lines = new ArrayList<>();
    lines.add(cases.size() + " boxes, seed " + seed);
    lines.addAll(new StudyTable(cases).lines());
    lines.addAll(CaseStory.surprises(cases));
    return lines;
  }

  /** Adds seed, figures and cases, as docs/schemas/answer-1.json lays down. */
  public void addTo(ObjectNode answer) {
    StudyTable table = new StudyTable(cases);
    answer.put("boxes", cases.size()).put("seed", seed);
    ObjectNode found = answer.putObject("found");
    found
        .put("reversed_passed", table.reversedPassed())
        .put("good_failed_share", table.goodFailed())
        .put("decidable_undecided_share", table.undecided())
        .put("foreseen_passed_share", table.foreseenPassed())
        .put("fault_first_share", table.namedFirst())
        .put("fault_in_set_share", table.namedInSet())
        .put("set_size_median", table.setSize(0.5))
        .put("judge_seconds_median", table.medianSeconds());
    ArrayNode readings = answer.putArray("readings");
    for (Figure figure : Figure.values()) {
      readings
          .addObject()
          .put("figure", figure.key())
          .put("count", table.count(figure))
          .put("error_95th_percentile", table.error(figure))
          .put("held_share", table.coverage(figure));
    }
    ArrayNode all = answer.putArray("cases");
    cases.forEach(each -> add(all.addObject(), each));
  }

  private static void add(ObjectNode node, StudyCase each) {
    node.put("case", each.number()).put("plan", each.plan());
    ArrayNode truth = node.putArray("truth");
    each.truth().forEach(fault -> truth.add(fault.id()));
    node.put("decision", VerdictSign.of(each.verdict().decision()).machineWord())
        .put("decidable", each.decidable())
        .put("fault_first", each.namedFirst())
        .put("fault_in_set", each.namedInSet())
        .put("judge_seconds", each.judgeSeconds());
    each.diagnosis()
        .ifPresent(
            diagnosis -> {
              ArrayNode first = node.putArray("likeliest");
              Alternative likeliest = diagnosis.findings().get(0).likeliest();
              likeliest.faults().forEach(fault -> first.add(fault.id()));
            });
    ArrayNode readings = node.putArray("readings");
    for (StudyReading reading : each.readings()) {
      ObjectNode one =
          readings
              .addObject()
              .put("figure", reading.figure().key())
              .put("of", reading.of())
              .put("truth", reading.truth())
              .put("value", reading.read().value());
      one.set("interval", JsonAnswer.interval(reading.read().interval()));
    }
  }
}
