package conewise.station.answer;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.station.card.JobCard;
import conewise.station.card.VerdictSign;
import java.util.List;
import java.util.Locale;

/**
 * Answers for programs: one JSON object each, as docs/schemas/answer-1.json lays down. Fields that
 * have no value are left out; nothing is ever null or NaN.
 */
public final class JsonAnswer {
  /** The name and version that every answer bears. */
  public static final String SCHEMA = "conewise/answer-1";

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private JsonAnswer() {}

  /** An answer with nothing in it yet but its head. */
  public static ObjectNode of(String command, ExitCode exitCode) {
    return NODES
        .objectNode()
        .put("schema", SCHEMA)
        .put("command", command)
        .put("exit_code", exitCode.number());
  }

  /** The answer of a command that failed. */
  public static ObjectNode failure(String command, ExitCode exitCode, String sentence) {
    ObjectNode answer = of(command, exitCode);
    answer.putObject("error").put("sentence", sentence);
    return answer;
  }

  /** The answer of a command that judged. */
  public static ObjectNode judged(String command, JobCard card) {
    Verdict verdict = card.verdict();
    ObjectNode answer = of(command, ExitCode.of(verdict.decision()));
    answer.put("decision", VerdictSign.of(verdict.decision()).machineWord());
    card.serial().ifPresent(serial -> answer.put("serial", serial));
    card.attempt().ifPresent(attempt -> answer.put("attempt", attempt));
    answer.put("plan", card.plan().name()).put("headline", verdict.headline());
    verdict.action().ifPresent(action -> answer.put("action", action));
    ArrayNode checks = answer.putArray("checks");
    verdict.checks().forEach(check -> checks.add(check(check)));
    ArrayNode suspects = answer.putArray("suspects");
    verdict.suspects().forEach(suspect -> suspects.add(suspect(suspect)));
    ArrayNode tests = answer.putArray("next_tests");
    verdict.tests().forEach(test -> tests.add(test(test)));
    texts(answer.putArray("not_shown"), verdict.notShown());
    findings(answer, verdict.bench());
    measured(answer, card.facts());
    curve(answer, card.measurement().curve());
    return answer;
  }

  /** Adds what the bench has to say as {@code bench}. */
  public static void findings(ObjectNode answer, List<BenchFinding> findings) {
    ArrayNode bench = answer.putArray("bench");
    for (BenchFinding finding : findings) {
      bench
          .addObject()
          .put("kind", finding.kind().name().toLowerCase(Locale.ROOT).replace('_', '-'))
          .put("spoils", finding.spoils())
          .put("sentence", finding.sentence())
          .put("next_step", finding.nextStep());
    }
  }

  /** Adds how it was measured as {@code measured}. */
  public static void measured(ObjectNode answer, List<JobCard.Fact> facts) {
    ArrayNode measured = answer.putArray("measured");
    facts.forEach(fact -> measured.addObject().put("label", fact.label()).put("text", fact.text()));
  }

  /** Adds a curve as {@code curve}, or the reason why there is none as {@code no_curve_because}. */
  public static void curve(ObjectNode answer, Outcome<ImpedanceCurve> outcome) {
    if (outcome instanceof Outcome.NoResult<ImpedanceCurve> none) {
      answer.put("no_curve_because", none.because());
    } else if (outcome instanceof Outcome.Found<ImpedanceCurve> found) {
      answer.put("curve_scale_standard_uncertainty", found.value().scaleUncertainty());
      ArrayNode points = answer.putArray("curve");
      found.value().points().forEach(point -> points.add(point(point)));
    }
  }

  private static ObjectNode point(ImpedancePoint point) {
    ObjectNode node =
        NODES
            .objectNode()
            .put("frequency_hz", point.frequencyHz())
            .put("resistance_ohm", point.resistanceOhm())
            .put("reactance_ohm", point.reactanceOhm());
    point.standardUncertaintyOhm().ifPresent(known -> node.put("standard_uncertainty_ohm", known));
    return node;
  }

  private static ObjectNode check(Check check) {
    ObjectNode node =
        NODES
            .objectNode()
            .put("id", check.id())
            .put("title", check.title())
            .put("decision", VerdictSign.of(check.decision()).machineWord());
    if (check.reading() instanceof Outcome.Found<Check.Reading> found) {
      node.put("value", found.value().value()).put("unit", found.value().unit());
      node.set("interval", interval(found.value().interval()));
    } else if (check.reading() instanceof Outcome.NoResult<Check.Reading> none) {
      node.put("no_value_because", none.because());
    }
    check.limits().ifPresent(limits -> node.set("limits", interval(limits)));
    node.put("reason", check.reason());
    check.nextStep().ifPresent(step -> node.put("next_step", step));
    return node;
  }

  /** An open end is left out: JSON knows no infinity. */
  public static ObjectNode interval(Interval interval) {
    ObjectNode node = NODES.objectNode();
    if (Double.isFinite(interval.low())) {
      node.put("low", interval.low());
    }
    if (Double.isFinite(interval.high())) {
      node.put("high", interval.high());
    }
    return node;
  }

  private static ObjectNode suspect(Verdict.Suspect suspect) {
    ObjectNode node = NODES.objectNode();
    texts(node.putArray("faults"), suspect.faults());
    node.put("probability", suspect.probability());
    return node.put("because", suspect.because()).put("test", suspect.test());
  }

  private static ObjectNode test(NextTest test) {
    ObjectNode node =
        NODES
            .objectNode()
            .put("instruction", test.instruction())
            .put("minutes", test.minutes())
            .put("information_bits", test.bits());
    ArrayNode results = node.putArray("results");
    for (NextTest.Result result : test.results()) {
      results
          .addObject()
          .put("seen", result.seen())
          .put("meaning", result.meaning())
          .put("probability", result.probability());
    }
    return node;
  }

  private static void texts(ArrayNode array, List<String> texts) {
    texts.forEach(array::add);
  }
}
