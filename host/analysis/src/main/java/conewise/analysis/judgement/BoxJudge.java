package conewise.analysis.judgement;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.DirectResistance;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.feature.CurveFeatures;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.BoxModel;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.plan.Stated;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.function.Function;

/**
 * Judges a box by weighing every fault that it may have against its being built as planned. Holds
 * no state but what faults it knows; one instance serves any number of threads.
 */
public final class BoxJudge {
  /** The checks whose value is the probability that nothing of their kind is wrong. */
  public static final Set<String> FAULT_CHECKS = FaultChecks.IDS;

  private final Function<PlannedBox, List<Fault>> faults;

  /** Judges with the usual rates. */
  public BoxJudge() {
    this(Rates.USUAL);
  }

  /** Judges with rates of a shop's own. */
  public BoxJudge(Rates rates) {
    this(plan -> Diagnosis.usualFaults(plan, rates));
  }

  /**
   * Judges by other faults than the usual ones, or by more: {@link Fault#own} beside {@link
   * Diagnosis#usualFaults}. Two faults are also weighed together, so each costs time.
   *
   * @param faults what a box of a plan may have, each with an id of its own; free of effects and
   *     safe for several threads where the judge is used by several
   */
  public BoxJudge(Function<PlannedBox, List<Fault>> faults) {
    this.faults = faults;
  }

  /**
   * What beside the first sweep is known of a box.
   *
   * @param sweeps further sweeps, each of the box in another state
   * @param observations what people and microphones have noticed
   */
  public record Evidence(List<SweptState> sweeps, List<Observation> observations) {
    /** Nothing. */
    public static final Evidence NONE = new Evidence(List.of(), List.of());

    public Evidence {
      sweeps = List.copyOf(sweeps);
      observations = List.copyOf(observations);
    }
  }

  /** Judges one sweep. */
  public Verdict judge(PlannedBox plan, Measurement measurement) {
    return judge(plan, measurement, Evidence.NONE);
  }

  /**
   * Judges a sweep with all that is known beside it.
   *
   * @param plan what the box should be
   * @param measurement the sweep of the box as it came
   * @param more other sweeps of it, and what was seen of it
   */
  public Verdict judge(PlannedBox plan, Measurement measurement, Evidence more) {
    return judged(plan, measurement, more).verdict();
  }

  /**
   * A verdict and what was weighed for it.
   *
   * @param verdict the answer
   * @param diagnosis empty where the bench forbids to weigh anything, or nothing could be fitted
   */
  public record Judged(Verdict verdict, Optional<Diagnosis> diagnosis) {
    private static Judged without(Verdict verdict) {
      return new Judged(verdict, Optional.empty());
    }
  }

  /** The same as {@link #judge(PlannedBox, Measurement, Evidence)}, with what was weighed. */
  public Judged judged(PlannedBox plan, Measurement measurement, Evidence more) {
    Optional<BenchFinding> spoiling =
        measurement.findings().stream().filter(BenchFinding::spoils).findFirst();
    if (spoiling.isPresent()) {
      return Judged.without(notJudged(plan, measurement, spoiling.get()));
    }
    if (measurement.curve() instanceof NoResult<ImpedanceCurve> none) {
      return Judged.without(
          notJudged(plan, measurement, none.because(), "Mend that and sweep again."));
    }
    ImpedanceCurve curve = ((Found<ImpedanceCurve>) measurement.curve()).value();
    List<SweptState> sweeps = new ArrayList<>(List.of(SweptState.asBuilt(curve)));
    sweeps.addAll(more.sweeps());
    for (SweptState sweep : sweeps) {
      Optional<BenchFinding> doubt = doubt(plan, sweep);
      if (doubt.isPresent()) {
        return Judged.without(notJudged(plan, with(measurement, doubt.get()), doubt.get()));
      }
    }
    Outcome<Diagnosis> outcome =
        Diagnosis.of(plan, sweeps, faults.apply(plan), more.observations());
    if (outcome instanceof NoResult<Diagnosis> none) {
      return Judged.without(
          notJudged(
              plan,
              measurement,
              none.because(),
              "Check that the plan is this box's, and sweep again."));
    }
    Diagnosis diagnosis = ((Found<Diagnosis>) outcome).value();
    return new Judged(
        new BoxVerdict(plan, curve, diagnosis, more, measurement.findings()).verdict(),
        Optional.of(diagnosis));
  }

  /** What forbids to use a sweep; of one in another state it says which. */
  private static Optional<BenchFinding> doubt(PlannedBox plan, SweptState sweep) {
    BoxModel model = sweep.state().of(new Candidate(plan.model(), List.of())).model();
    if (!model.conducts()) {
      return Optional.of(
          new BenchFinding(
              BenchFinding.Kind.OPEN_TERMINALS,
              true,
              "The planned box carries no current " + sweep.state().words() + ".",
              "Leave that sweep out, and change something else."));
    }
    return BenchDoubt.of(DirectResistance.ohm(model), referenceHz(plan), sweep.curve())
        .or(() -> BenchDoubt.noise(CurveFeatures.of(sweep.curve())))
        .map(finding -> sweep.state() instanceof State.AsBuilt ? finding : of(sweep, finding));
  }

  private static BenchFinding of(SweptState sweep, BenchFinding finding) {
    return new BenchFinding(
        finding.kind(),
        finding.spoils(),
        "The sweep " + sweep.state().words() + ": " + BenchDoubt.lower(finding.sentence()),
        finding.nextStep());
  }

  private static OptionalDouble referenceHz(PlannedBox plan) {
    return plan.vents().stream()
        .flatMap(vent -> vent.tuningHz().stream())
        .mapToDouble(Stated::value)
        .findFirst();
  }

  private static Measurement with(Measurement measurement, BenchFinding finding) {
    List<BenchFinding> findings = new ArrayList<>(List.of(finding));
    findings.addAll(measurement.findings());
    return new Measurement(measurement.curve(), findings);
  }

  private static Verdict notJudged(PlannedBox plan, Measurement measurement, BenchFinding finding) {
    return notJudged(plan, measurement, finding.sentence(), finding.nextStep());
  }

  private static Verdict notJudged(
      PlannedBox plan, Measurement measurement, String because, String action) {
    return new Verdict(
        Decision.NOT_JUDGED,
        "Not judged: " + BenchDoubt.lower(because),
        Optional.of(action),
        List.of(),
        List.of(),
        NotShown.of(plan),
        measurement.findings(),
        List.of());
  }
}
