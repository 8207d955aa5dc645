package conewise.analysis.judgement;

import static conewise.analysis.judgement.Evidence.text;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Verdict.Suspect;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.BoxPlan;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * Judges a box from the shape of its curve alone: resistance, peaks and dip, tuning, heights. Holds
 * no state; one instance serves any number of threads.
 */
public final class CurveJudge implements Judge {

  @Override
  public Verdict judge(BoxPlan plan, Measurement measurement) {
    Optional<BenchFinding> spoiling =
        measurement.findings().stream().filter(BenchFinding::spoils).findFirst();
    if (spoiling.isPresent()) {
      return notJudged(plan, measurement, spoiling.get());
    }
    if (measurement.curve() instanceof NoResult<ImpedanceCurve> none) {
      return notJudged(plan, measurement, none.because(), "Mend that and sweep again.");
    }
    ImpedanceCurve curve = ((Found<ImpedanceCurve>) measurement.curve()).value();
    Optional<BenchFinding> doubt = BenchDoubt.of(plan, curve);
    if (doubt.isPresent()) {
      return notJudged(plan, with(measurement, doubt.get()), doubt.get());
    }
    CurveFeatures features = CurveFeatures.of(curve);
    Optional<BenchFinding> noise = BenchDoubt.noise(features);
    if (noise.isPresent()) {
      return notJudged(plan, with(measurement, noise.get()), noise.get());
    }
    return judged(new Evidence(plan, curve, features), measurement);
  }

  private static Measurement with(Measurement measurement, BenchFinding finding) {
    List<BenchFinding> findings = new ArrayList<>(List.of(finding));
    findings.addAll(measurement.findings());
    return new Measurement(measurement.curve(), findings);
  }

  private static Verdict notJudged(BoxPlan plan, Measurement measurement, BenchFinding finding) {
    return notJudged(plan, measurement, finding.sentence(), finding.nextStep());
  }

  private static Verdict notJudged(
      BoxPlan plan, Measurement measurement, String because, String action) {
    return new Verdict(
        Decision.NOT_JUDGED,
        "Not judged: " + BenchDoubt.lower(because),
        Optional.of(action),
        List.of(),
        List.of(),
        Unshown.of(plan),
        measurement.findings());
  }

  private static Verdict judged(Evidence evidence, Measurement measurement) {
    List<Check> values = new ValueChecks(evidence).asked();
    PatternChecks patterns = new PatternChecks(evidence);
    Check peaks = patterns.peaks();
    List<Check> checks = new ArrayList<>();
    checks.add(values.get(0));
    checks.add(peaks);
    patterns.polarity(peaks).ifPresent(checks::add);
    checks.addAll(values.subList(1, values.size()));
    Decision decision = overall(checks);
    List<Suspect> suspects = decision == Decision.PASS ? List.of() : Suspicion.of(evidence, checks);
    return new Verdict(
        decision,
        headline(decision, checks, suspects),
        action(decision, checks, suspects),
        checks,
        suspects,
        Unshown.of(evidence.plan()),
        measurement.findings());
  }

  private static Decision overall(List<Check> checks) {
    if (checks.stream().anyMatch(check -> check.decision() == Decision.FAIL)) {
      return Decision.FAIL;
    }
    return checks.stream().allMatch(check -> check.decision() == Decision.PASS)
        ? Decision.PASS
        : Decision.UNDECIDED;
  }

  private static Check first(List<Check> checks, Decision... decisions) {
    return checks.stream()
        .filter(check -> List.of(decisions).contains(check.decision()))
        .findFirst()
        .orElseThrow();
  }

  private static String headline(Decision decision, List<Check> checks, List<Suspect> suspects) {
    return switch (decision) {
      case PASS ->
          text(
              "Right in all that was checked: %s.",
              checks.stream()
                  .map(c -> BenchDoubt.lower(c.title()))
                  .collect(Collectors.joining(", ")));
      case FAIL ->
          suspects.isEmpty()
              ? first(checks, Decision.FAIL).reason()
              : "Wrong: " + String.join(", or ", suspects.get(0).faults()) + ".";
      default -> {
        Check open = first(checks, Decision.UNDECIDED, Decision.NOT_JUDGED);
        yield "Undecided: " + BenchDoubt.lower(open.reason());
      }
    };
  }

  private static Optional<String> action(
      Decision decision, List<Check> checks, List<Suspect> suspects) {
    return switch (decision) {
      case PASS -> Optional.empty();
      case FAIL ->
          suspects.isEmpty()
              ? first(checks, Decision.FAIL).nextStep()
              : Optional.of(suspects.get(0).test());
      default -> first(checks, Decision.UNDECIDED, Decision.NOT_JUDGED).nextStep();
    };
  }
}
