package conewise.analysis.prediction;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.diagnosis.Signature;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.DoubleConsumer;

/**
 * What a planned box, and each fault that it may have, would show at the terminals.
 *
 * @param plan the box
 * @param good its curve, from 0 Hz on
 * @param prospects what faults would show, alike ones together, in the order in which a diagnosis
 *     lists them
 * @param allowedOhm the DC resistance that the plan allows
 * @param slips what an ohmmeter reads of each slip of the wiring
 */
public record BoxPrediction(
    PlannedBox plan,
    ImpedanceCurve good,
    List<Prospect> prospects,
    Interval allowedOhm,
    List<WiringSlip> slips) {
  /** Where the curves begin, after the point at 0 Hz. */
  public static final double LOWEST_HZ = 10;

  /** Where they end. */
  public static final double HIGHEST_HZ = 400;

  /** The fewest boxes that may be drawn for each set of faults. */
  public static final int FEWEST_BOXES = 4;

  /** The most. */
  public static final int MOST_BOXES = 1000;

  private static final int POINTS = 240;

  public BoxPrediction {
    prospects = List.copyOf(prospects);
    slips = List.copyOf(slips);
  }

  /**
   * Predicts. Takes some milliseconds for each box that is drawn.
   *
   * @param rates how often each fault is met: what is seldom met takes more to be told
   * @param boxes how many to draw for each set of faults, to see how many of them a good box
   *     explains; {@link #FEWEST_BOXES} to {@link #MOST_BOXES}
   * @param seed of the drawing: the same gives the same
   * @param progress is told how far it has come, 0 to 1
   * @throws IllegalArgumentException for another number of boxes
   */
  public static BoxPrediction of(
      PlannedBox plan, Rates rates, int boxes, long seed, DoubleConsumer progress) {
    if (boxes < FEWEST_BOXES || boxes > MOST_BOXES) {
      throw new IllegalArgumentException(
          boxes
              + " boxes are to be drawn for each fault; it must be "
              + FEWEST_BOXES
              + " to "
              + MOST_BOXES);
    }
    Candidate planned = new Candidate(plan.model(), plan.unknowns());
    // Another box shows what it shows: no curve of it can be foretold.
    List<Fault> faults =
        Diagnosis.usualFaults(plan, rates).stream()
            .filter(fault -> fault.kind() != FaultKind.OTHER_BOX)
            .toList();
    ImpedanceCurve good = curve(planned);
    List<Prospect> prospects = new ArrayList<>();
    List<List<Fault>> sets = sets(planned, faults);
    Prospects make = new Prospects(plan, planned, good, new DrawnBoxes(planned, boxes, seed));
    for (List<Fault> set : sets) {
      progress.accept((double) prospects.size() / sets.size());
      prospects.add(make.of(set));
    }
    return new BoxPrediction(
        plan, good, prospects, WiringSlip.allowedOhm(plan), WiringSlip.of(plan));
  }

  /** Those of one signature together; those through which no current passes are one set. */
  private static List<List<Fault>> sets(Candidate planned, List<Fault> faults) {
    Signature open = new Signature(List.of());
    Map<Signature, List<Fault>> sets = new LinkedHashMap<>();
    for (Fault fault : faults) {
      Candidate faulty = fault.change().apply(planned);
      Signature signature = faulty.model().conducts() ? Signature.of(faulty) : open;
      sets.computeIfAbsent(signature, key -> new ArrayList<>()).add(fault);
    }
    sets.values().forEach(set -> set.sort(Comparator.comparingDouble(each -> -each.rate())));
    return List.copyOf(sets.values());
  }

  /** The candidate with all as it is expected. */
  static ImpedanceCurve curve(Candidate candidate) {
    double[] hz = new double[POINTS + 1];
    for (int i = 0; i < POINTS; i++) {
      hz[i + 1] = LOWEST_HZ * Math.pow(HIGHEST_HZ / LOWEST_HZ, i / (POINTS - 1.0));
    }
    return PredictedCurve.of(candidate.model(), candidate.unknowns(), Map.of(), hz);
  }

  /** What is read off the good curve. */
  public CurveShape goodShape() {
    return CurveShape.of(good);
  }

  /** Makes prospects of sets of faults. */
  private record Prospects(
      PlannedBox plan, Candidate planned, ImpedanceCurve good, DrawnBoxes drawn) {

    Prospect of(List<Fault> set) {
      Candidate faulty = set.get(0).change().apply(planned);
      if (!faulty.model().conducts()) {
        Outcome<ImpedanceCurve> none = Outcome.none("no current passes between the terminals");
        Telling open = Telling.of(Telling.Kind.OPEN);
        return new Prospect(set, none, OptionalDouble.empty(), open, List.of());
      }
      ImpedanceCurve curve = curve(faulty);
      boolean unseen = Signature.of(faulty).equals(Signature.of(planned));
      return new Prospect(
          set,
          Outcome.found(curve),
          CurveShape.timesOf(curve, good),
          unseen ? Telling.of(Telling.Kind.NEVER) : drawn.telling(set, faulty),
          unseen ? tests(set) : List.<Prospect.Unseen>of());
    }

    private List<Prospect.Unseen> tests(List<Fault> set) {
      UnseenTests tests = new UnseenTests(plan, planned);
      return set.stream().map(fault -> new Prospect.Unseen(fault, tests.of(fault))).toList();
    }
  }

  /** The faults of a kind of telling. */
  public List<Prospect> told(Telling.Kind kind) {
    return prospects.stream().filter(each -> each.telling().kind() == kind).toList();
  }
}
