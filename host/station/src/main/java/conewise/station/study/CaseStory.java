package conewise.station.study;

import conewise.analysis.diagnosis.Alternative;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** Single cases of a study in words. */
final class CaseStory {
  private static final int MOST_SURPRISES = 40;

  private CaseStory() {}

  /** All of one case. */
  static List<String> lines(StudyCase one) {
    List<String> lines = new ArrayList<>();
    lines.add("Case " + one.number() + ", plan " + one.plan());
    lines.add("Truth: " + one.truthWords());
    lines.add("Verdict: " + one.verdict().decision() + ". " + one.verdict().headline());
    one.verdict()
        .checks()
        .forEach(
            check -> lines.add("  " + check.id() + ": " + check.decision() + " " + check.reason()));
    one.diagnosis()
        .ifPresent(
            diagnosis ->
                diagnosis
                    .findings()
                    .forEach(
                        finding ->
                            lines.add(
                                String.format(
                                    Locale.ROOT,
                                    "  %.4f  leaves %.2f %%: %s",
                                    finding.probability(),
                                    100 * finding.fit().relativeResidual(),
                                    finding.alternatives().stream()
                                        .map(CaseStory::ids)
                                        .collect(Collectors.joining(" | "))))));
    for (StudyReading reading : one.readings()) {
      lines.add(
          String.format(
              Locale.ROOT,
              "True %s of %s %.4g, read %.4g (%.4g to %.4g)",
              reading.figure().word(),
              reading.of(),
              reading.truth(),
              reading.read().value(),
              reading.read().interval().low(),
              reading.read().interval().high()));
    }
    return lines;
  }

  private static String ids(Alternative alternative) {
    return alternative.isGood()
        ? "good"
        : alternative.faults().stream().map(fault -> fault.id()).collect(Collectors.joining(" + "));
  }

  /** Cases in which truth and verdict part, a line each, the gravest first. */
  static List<String> surprises(List<StudyCase> cases) {
    List<String> lines = new ArrayList<>();
    cases.stream()
        .filter(each -> gravity(each) > 0)
        .sorted(Comparator.comparingInt(each -> -gravity(each)))
        .limit(MOST_SURPRISES)
        .forEach(each -> lines.add(line(each)));
    if (!lines.isEmpty()) {
      lines.add(0, "");
      lines.add(1, "Where truth and verdict part, the gravest first (--case K tells more):");
    }
    return lines;
  }

  /** 3 for a wrong verdict that matters most, 0 where there is nothing to say. */
  private static int gravity(StudyCase each) {
    Decision decision = each.verdict().decision();
    if (each.isGood()) {
      return decision == Decision.FAIL ? 3 : decision == Decision.PASS ? 0 : 1;
    }
    if (decision == Decision.PASS) {
      return each.isReversed() ? 3 : 2;
    }
    return each.diagnosis().isPresent() && !each.namedFirst() ? 1 : 0;
  }

  private static String line(StudyCase each) {
    return String.format(
        Locale.ROOT,
        "case %d, %s, %s: %s %s",
        each.number(),
        each.plan(),
        each.truthWords(),
        each.verdict().decision(),
        first(each));
  }

  private static String first(StudyCase each) {
    String failing =
        each.verdict().checks().stream()
            .filter(check -> check.decision() != Decision.PASS)
            .map(Check::id)
            .collect(Collectors.joining(","));
    return failing
        + each.diagnosis().map(d -> "; first " + ids(d.findings().get(0).likeliest())).orElse("");
  }
}
