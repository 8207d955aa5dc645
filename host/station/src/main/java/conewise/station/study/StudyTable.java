package conewise.station.study;

import conewise.analysis.judgement.Decision;
import conewise.station.study.StudyReading.Figure;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;

/** What a study comes to: truth against verdict, and the figures that it is held to. */
final class StudyTable {
  private final List<StudyCase> cases;

  StudyTable(List<StudyCase> cases) {
    this.cases = List.copyOf(cases);
  }

  long count(Predicate<StudyCase> which) {
    return cases.stream().filter(which).count();
  }

  private static Predicate<StudyCase> is(Decision decision) {
    return each -> each.verdict().decision() == decision;
  }

  /** Boxes with a reversed driver or coil that passed: none may. */
  long reversedPassed() {
    return count(each -> each.isReversed() && is(Decision.PASS).test(each));
  }

  /** The share of good boxes that failed. */
  double goodFailed() {
    return share(each -> each.isGood() && is(Decision.FAIL).test(each), StudyCase::isGood);
  }

  /** The share left undecided of those that the prediction says can be decided. */
  double undecided() {
    return share(
        each -> each.decidable() && is(Decision.UNDECIDED).test(each), StudyCase::decidable);
  }

  /** The share that passed of the bad boxes whose fault the prediction says surely shows. */
  double foreseenPassed() {
    Predicate<StudyCase> foreseen = each -> !each.isGood() && each.decidable();
    return share(each -> foreseen.test(each) && is(Decision.PASS).test(each), foreseen);
  }

  /** The share of bad boxes, of those judged, whose fault or its set came first. */
  double namedFirst() {
    Predicate<StudyCase> judgedBad = each -> !each.isGood() && each.diagnosis().isPresent();
    return share(each -> judgedBad.test(each) && each.namedFirst(), judgedBad);
  }

  /** The share of bad boxes, of those judged, whose faults are in the first set. */
  double namedInSet() {
    Predicate<StudyCase> judgedBad = each -> !each.isGood() && each.diagnosis().isPresent();
    return share(each -> judgedBad.test(each) && each.namedInSet(), judgedBad);
  }

  private int[] setSizes() {
    return cases.stream()
        .filter(each -> each.diagnosis().isPresent())
        .mapToInt(StudyCase::setSize)
        .sorted()
        .toArray();
  }

  private List<StudyReading> readings(Figure figure) {
    return cases.stream()
        .filter(StudyCase::namedFirst)
        .flatMap(each -> each.readings().stream())
        .filter(each -> each.figure() == figure)
        .toList();
  }

  /** How many such readings there are. */
  int count(Figure figure) {
    return readings(figure).size();
  }

  /** The relative error that 95 of 100 readings stay below; 0 where there are none. */
  double error(Figure figure) {
    double[] errors =
        readings(figure).stream().mapToDouble(StudyReading::relativeError).sorted().toArray();
    return errors.length == 0 ? 0 : errors[(int) Math.ceil(0.95 * errors.length) - 1];
  }

  /** The share of 95 % intervals that hold the truth; 0 where there are none. */
  double coverage(Figure figure) {
    List<StudyReading> all = readings(figure);
    return all.isEmpty()
        ? 0
        : (double) all.stream().filter(StudyReading::held).count() / all.size();
  }

  /** The size of the first set that a share of the boxes stays at or below. */
  int setSize(double share) {
    int[] sizes = setSizes();
    return sizes.length == 0 ? 0 : sizes[(int) Math.min(sizes.length - 1, share * sizes.length)];
  }

  /** How long the judge took for the box in the middle. */
  double medianSeconds() {
    double[] seconds = cases.stream().mapToDouble(StudyCase::judgeSeconds).sorted().toArray();
    return seconds[seconds.length / 2];
  }

  private double share(Predicate<StudyCase> which, Predicate<StudyCase> of) {
    long all = count(of);
    return all == 0 ? 0 : (double) count(which) / all;
  }

  /** Lines for a person. */
  List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "%-24s %6s %6s %9s %10s %7s %7s",
            "Truth",
            "PASS",
            "FAIL",
            "UNDECIDED",
            "NOT JUDGED",
            "first",
            "in set"));
    Map<String, List<StudyCase>> rows = new TreeMap<>();
    for (StudyCase each : cases) {
      String row =
          each.isGood()
              ? "good"
              : each.truth().size() > 1 ? "two faults" : each.truth().get(0).kind().id();
      rows.computeIfAbsent(row, key -> new ArrayList<>()).add(each);
    }
    rows.forEach((row, in) -> lines.add(row(row, in)));
    lines.add("");
    lines.add(figure("reversed drivers or coils passed", Long.toString(reversedPassed()), "none"));
    lines.add(figure("good boxes failed", percent(goodFailed()), "at most 0.5 %"));
    lines.add(
        figure("undecided where a decision is possible", percent(undecided()), "at most 3 %"));
    lines.add(figure("passed though foreseen to show", percent(foreseenPassed()), "none"));
    lines.add(figure("right fault first by itself", percent(namedFirst()), ""));
    lines.add(figure("right fault in the first set", percent(namedInSet()), "at least 95 %"));
    lines.add(
        figure(
            "size of the first set, median (90 %)", setSize(0.5) + " (" + setSize(0.9) + ")", ""));
    for (Figure figure : Figure.values()) {
      lines.add(
          figure(
              figure.word() + ", 95th percentile of error",
              percent(error(figure)),
              figure == Figure.TUNING ? "at most 1 %" : ""));
      lines.add(
          figure(figure.word() + " within its interval", percent(coverage(figure)), "about 95 %"));
    }
    lines.add(
        figure(
            "time of the judge, median",
            String.format(Locale.ROOT, "%.0f ms", 1e3 * medianSeconds()),
            ""));
    return lines;
  }

  private static String figure(String what, String value, String wanted) {
    return String.format(Locale.ROOT, "%-40s %10s   %s", what, value, wanted).stripTrailing();
  }

  private static String percent(double share) {
    return String.format(Locale.ROOT, "%.2f %%", 100 * share);
  }

  private static int index(Decision decision) {
    return Arrays.asList(Decision.values()).indexOf(decision);
  }

  private static String row(String name, List<StudyCase> in) {
    long[] by = new long[Decision.values().length];
    in.forEach(each -> by[index(each.verdict().decision())]++);
    long judged = in.stream().filter(each -> each.diagnosis().isPresent()).count();
    long named = in.stream().filter(each -> each.namedFirst()).count();
    long set = in.stream().filter(each -> each.namedInSet()).count();
    return String.format(
        Locale.ROOT,
        "%-24s %6d %6d %9d %10d %7d %7d of %d",
        name,
        by[index(Decision.PASS)],
        by[index(Decision.FAIL)],
        by[index(Decision.UNDECIDED)],
        by[index(Decision.NOT_JUDGED)],
        named,
        set,
        judged);
  }
}
