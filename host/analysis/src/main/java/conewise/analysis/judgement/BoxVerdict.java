package conewise.analysis.judgement;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.Alternative;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.Finding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.diagnosis.NextTests;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Verdict.Suspect;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/** Makes a verdict of a diagnosis and of the values that a plan asks for. */
final class BoxVerdict {
  private static final int MOST_ALTERNATIVES = 4;
  private static final int MOST_SUSPECTS = 5;
  private static final int MOST_TESTS = 3;
  private static final double LEAST_SUSPECT = 0.01;

  private final PlannedBox plan;
  private final ImpedanceCurve curve;
  private final Diagnosis diagnosis;
  private final BoxJudge.Evidence more;
  private final List<BenchFinding> bench;

  BoxVerdict(
      PlannedBox plan,
      ImpedanceCurve curve,
      Diagnosis diagnosis,
      BoxJudge.Evidence more,
      List<BenchFinding> bench) {
    this.plan = plan;
    this.curve = curve;
    this.diagnosis = diagnosis;
    this.more = more;
    this.bench = bench;
  }

  Verdict verdict() {
    NextTests next = NextTests.of(plan, diagnosis);
    List<NextTest> tests = next.all();
    FaultChecks faults = new FaultChecks(plan, diagnosis, more, next);
    List<Check> checks = new ArrayList<>(faults.all());
    checks.addAll(new BoxChecks(plan, curve, diagnosis.findings().get(0)).all());
    Decision decision = overall(checks);
    return new Verdict(
        decision,
        headline(decision, checks, faults.worst()),
        action(decision, checks, faults.worst(), tests),
        checks,
        decision == Decision.PASS ? List.of() : suspects(tests),
        NotShown.of(plan, diagnosis, more),
        bench,
        decision == Decision.PASS ? List.of() : tests.stream().limit(MOST_TESTS).toList());
  }

  private static Decision overall(List<Check> checks) {
    if (checks.stream().anyMatch(check -> check.decision() == Decision.FAIL)) {
      return Decision.FAIL;
    }
    return checks.stream().allMatch(check -> check.decision() == Decision.PASS)
        ? Decision.PASS
        : Decision.UNDECIDED;
  }

  private boolean faultFound(List<Check> checks) {
    return checks.stream()
        .anyMatch(
            check -> FaultChecks.IDS.contains(check.id()) && check.decision() == Decision.FAIL);
  }

  private String headline(Decision decision, List<Check> checks, List<Alternative> worst) {
    return switch (decision) {
      case PASS ->
          String.format(
              Locale.ROOT,
              "Right in all that was checked: %s.",
              checks.stream()
                  .map(check -> BenchDoubt.lower(check.title()))
                  .collect(Collectors.joining(", ")));
      case FAIL ->
          faultFound(checks)
              ? "Wrong: " + sentence(worst) + "."
              : first(checks, Decision.FAIL).reason();
      default ->
          "Undecided: "
              + BenchDoubt.lower(first(checks, Decision.UNDECIDED, Decision.NOT_JUDGED).reason());
    };
  }

  private Optional<String> action(
      Decision decision, List<Check> checks, List<Alternative> worst, List<NextTest> tests) {
    return switch (decision) {
      case PASS -> Optional.empty();
      case FAIL ->
          faultFound(checks)
              ? Optional.of(remedy(worst, tests))
              : first(checks, Decision.FAIL).nextStep();
      default -> first(checks, Decision.UNDECIDED, Decision.NOT_JUDGED).nextStep();
    };
  }

  /** Where the place is known, what to mend; where it is not, the test that would tell. */
  private static String remedy(List<Alternative> worst, List<NextTest> tests) {
    return worst.size() > 1 && !tests.isEmpty() ? tests.get(0).instruction() : remedy(worst.get(0));
  }

  private static Check first(List<Check> checks, Decision... decisions) {
    return checks.stream()
        .filter(check -> List.of(decisions).contains(check.decision()))
        .findFirst()
        .orElseThrow();
  }

  private List<Suspect> suspects(List<NextTest> tests) {
    return diagnosis.findings().stream()
        .map(each -> suspect(each, tests))
        .flatMap(Optional::stream)
        .sorted(Comparator.comparingDouble(each -> -each.probability()))
        .limit(MOST_SUSPECTS)
        .toList();
  }

  /** What of a finding would be wrong; none where that is too improbable to tell. */
  private static Optional<Suspect> suspect(Finding finding, List<NextTest> tests) {
    List<Alternative> wrong =
        finding.alternatives().stream().filter(each -> !each.isGood()).toList();
    double probability = wrong.stream().mapToDouble(Alternative::probability).sum();
    if (probability < LEAST_SUSPECT) {
      return Optional.empty();
    }
    boolean open = finding.alternatives().size() > 1 && !tests.isEmpty();
    return Optional.of(
        new Suspect(
            wrong.stream().limit(MOST_ALTERNATIVES).map(Alternative::sentence).toList(),
            String.format(
                Locale.ROOT,
                "The curve fits it to %.2g %%, and its probability is %.3g.",
                100 * finding.fit().relativeResidual(),
                probability),
            open ? tests.get(0).instruction() : remedy(wrong.get(0)),
            probability));
  }

  private static String remedy(Alternative alternative) {
    return alternative.faults().stream().map(Fault::remedy).collect(Collectors.joining(" "));
  }

  static String sentence(List<Alternative> alternatives) {
    String some =
        alternatives.stream()
            .limit(MOST_ALTERNATIVES)
            .map(Alternative::sentence)
            .collect(Collectors.joining("; or "));
    return alternatives.size() > MOST_ALTERNATIVES ? some + "; or another like it" : some;
  }
}
