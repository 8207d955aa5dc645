package conewise.analysis.diagnosis;

import conewise.analysis.feature.Extrema;
import conewise.analysis.fit.PredictedCurve;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;

/**
 * The tests that would tell more of a box, the one that tells most for its cost first: by the
 * entropy of what each would show (D. V. Lindley, Ann. Math. Statist. 27, 1956).
 */
public final class NextTests {
  private static final double SWEEP_MINUTES = 2;
  private static final double VENT_MINUTES = 1;
  private static final double POP_MINUTES = 1;
  private static final double LOOK_MINUTES = 2;

  /** An amplifier has to be found and connected. */
  private static final double TONE_MINUTES = 4;

  /** What tells less is no test. */
  private static final double LEAST_BITS = 0.1;

  /** What tells less of a question, in bits a minute, tells nothing of it. */
  private static final double LEAST_TOLD = 1e-3;

  /** A result less probable is not told. */
  private static final double LEAST_RESULT = 0.01;

  /** Two curves are one to a sweep when they differ by less, root mean square over |Z|. */
  private static final double ALIKE = 0.03;

  private static final double LOWEST_HZ = 10;
  private static final double HIGHEST_HZ = 200;
  private static final int POINTS = 60;

  /** One thing that may be the case, with the fit of the box that it comes to. */
  private record Case(Alternative alternative, Candidate candidate, Map<String, Double> at) {}

  private final Diagnosis diagnosis;
  private final PlannedBox plan;
  private final List<Case> cases = new ArrayList<>();
  private final List<Grouped> tests = new ArrayList<>();

  /** A test, and the cases that would show the same in it. */
  private record Grouped(NextTest test, List<List<Case>> groups) {

    /** What the test is expected to tell of a question, for its cost. */
    double worth(Predicate<Alternative> question) {
      double told = entropy(groups.stream().flatMap(List::stream).toList(), question);
      double all = groups.stream().mapToDouble(NextTests::probability).sum();
      for (List<Case> group : groups) {
        told -= probability(group) / all * entropy(group, question);
      }
      return told / test.minutes();
    }

    private static double entropy(List<Case> group, Predicate<Alternative> question) {
      double all = probability(group);
      double yes =
          probability(group.stream().filter(c -> question.test(c.alternative())).toList()) / all;
      return all > 0 ? bits(yes) + bits(1 - yes) : 0;
    }
  }

  private NextTests(PlannedBox plan, Diagnosis diagnosis) {
    this.plan = plan;
    this.diagnosis = diagnosis;
    for (Finding finding : diagnosis.findings()) {
      for (Alternative each : finding.alternatives()) {
        cases.add(new Case(each, each.of(diagnosis.planned()), finding.coordinates()));
      }
    }
    list();
  }

  /** Of a box as far as it is known. */
  public static NextTests of(PlannedBox plan, Diagnosis diagnosis) {
    return new NextTests(plan, diagnosis);
  }

  /** The tests worth making, best first; none where nothing would tell more. */
  public List<NextTest> all() {
    return tests.stream()
        .map(Grouped::test)
        .filter(test -> test.bits() >= LEAST_BITS)
        .sorted(Comparator.comparingDouble(test -> -test.worth()))
        .toList();
  }

  /**
   * The test that tells most, for its cost, of one question.
   *
   * @param question what is asked of each thing that may be the case
   * @return none where no test tells anything of it
   */
  public Optional<NextTest> about(Predicate<Alternative> question) {
    return tests.stream()
        .filter(each -> each.worth(question) > LEAST_TOLD)
        .max(Comparator.comparingDouble(each -> each.worth(question)))
        .map(Grouped::test);
  }

  private void list() {
    plan.vents().forEach(vent -> sweep(new State.VentClosed(vent.name()), VENT_MINUTES));
    if (plan.drivers().size() > 1) {
      for (PlannedBox.PlacedDriver driver : plan.drivers()) {
        sweep(new State.LeadsSwapped(driver.name()), SWEEP_MINUTES);
        sweep(new State.Unplugged(driver.name()), SWEEP_MINUTES);
      }
    }
    pop();
    plan.vents().forEach(vent -> wind(vent.name()));
    if (plan.drivers().size() > 1) {
      plan.drivers().forEach(driver -> level(driver.name()));
    }
    look();
  }

  private void sweep(State state, double minutes) {
    if (cases.stream().allMatch(each -> state.of(each.candidate()).model().conducts())) {
      Map<Case, ImpedanceCurve> curves = new LinkedHashMap<>();
      cases.forEach(each -> curves.put(each, curve(each, state)));
      List<List<Case>> groups = alike(curves);
      String instruction = "Sweep again " + state.words() + ".";
      add(instruction, minutes, groups, group -> shape(curves.get(group.get(0))));
    }
  }

  private static ImpedanceCurve curve(Case each, State state) {
    double[] hz = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      hz[i] = LOWEST_HZ * Math.pow(HIGHEST_HZ / LOWEST_HZ, i / (POINTS - 1.0));
    }
    Candidate then = state.of(each.candidate());
    return PredictedCurve.of(then.model(), then.unknowns(), each.at(), hz);
  }

  private static List<List<Case>> alike(Map<Case, ImpedanceCurve> curves) {
    List<List<Case>> groups = new ArrayList<>();
    curves.forEach(
        (each, curve) ->
            groups.stream()
                .filter(group -> distance(curves.get(group.get(0)), curve) < ALIKE)
                .findFirst()
                .orElseGet(
                    () -> {
                      groups.add(new ArrayList<>());
                      return groups.get(groups.size() - 1);
                    })
                .add(each));
    return groups;
  }

  private static double distance(ImpedanceCurve a, ImpedanceCurve b) {
    double sum = 0;
    for (int i = 0; i < POINTS; i++) {
      ImpedancePoint p = a.points().get(i);
      ImpedancePoint q = b.points().get(i);
      double off =
          Math.hypot(p.resistanceOhm() - q.resistanceOhm(), p.reactanceOhm() - q.reactanceOhm());
      sum += Math.pow(off / Math.max(p.modulusOhm(), q.modulusOhm()), 2);
    }
    return Math.sqrt(sum / POINTS);
  }

  private static String shape(ImpedanceCurve curve) {
    List<String> peaks =
        Extrema.of(curve).peaks().stream()
            .map(
                peak ->
                    String.format(
                        Locale.ROOT,
                        "%.0f ohm at %.0f Hz",
                        peak.modulusOhm().value(),
                        peak.frequencyHz().value()))
            .toList();
    return peaks.isEmpty()
        ? "no peak"
        : (peaks.size() == 1 ? "one peak, " : peaks.size() + " peaks, ")
            + String.join(" and ", peaks);
  }

  private void pop() {
    Map<String, List<Case>> groups = new LinkedHashMap<>();
    for (Case each : cases) {
      groups.computeIfAbsent(motions(each), key -> new ArrayList<>()).add(each);
    }
    String instruction =
        "Pop test, every amplifier disconnected: let the jig step (conewise pop), or touch a 1.5 V"
            + " cell to the terminals for less than a second, + to +, and watch each cone.";
    add(
        instruction,
        POP_MINUTES * diagnosis.plannedMotion().size(),
        List.copyOf(groups.values()),
        group -> motions(group.get(0)));
  }

  private static String motions(Case each) {
    return Motion.of(each.candidate().model()).entrySet().stream()
        .map(entry -> "driver " + entry.getKey() + " " + entry.getValue().words())
        .collect(Collectors.joining("; "));
  }

  /** A hand at a vent, a tone at the tuning. */
  private void wind(String vent) {
    Candidate planned = diagnosis.planned();
    double hz = planned.tones().portHz(vent);
    Function<Case, Wind> felt =
        each ->
            likeliest(
                Wind.values(),
                w -> new Observation.PortWind(vent, w, hz, planned).likelihood(each.candidate()));
    String instruction =
        String.format(
            Locale.ROOT,
            "Play a tone of %.1f Hz (conewise tone), softly at first, and hold a hand at vent %s:"
                + " --wind %s=strong, weak or none.",
            hz,
            vent,
            vent);
    add(instruction, TONE_MINUTES, groups(felt), g -> felt.apply(g.get(0)).words());
  }

  /** The level of a tone before and after one driver's leads are swapped. */
  private void level(String driver) {
    double hz = diagnosis.planned().tones().swap(driver).frequencyHz();
    Function<Case, Loudness> heard =
        each ->
            likeliest(
                Loudness.values(),
                loud ->
                    new Observation.LevelWithLeadsSwapped(driver, loud, hz)
                        .likelihood(each.candidate()));
    String instruction =
        String.format(
            Locale.ROOT,
            "Play a tone of %.1f Hz (conewise tone), softly at first, then again with the leads of"
                + " driver %s swapped, all else the same: --level-swapped %s=louder, quieter or"
                + " same.",
            hz,
            driver,
            driver);
    add(
        instruction,
        TONE_MINUTES + SWEEP_MINUTES,
        groups(heard),
        group -> heard.apply(group.get(0)).words());
  }

  private <T> List<List<Case>> groups(Function<Case, T> shown) {
    return List.copyOf(
        cases.stream()
            .collect(Collectors.groupingBy(shown, LinkedHashMap::new, Collectors.toList()))
            .values());
  }

  private static <T> T likeliest(T[] results, ToDoubleFunction<T> likelihood) {
    return Arrays.stream(results).max(Comparator.comparingDouble(likelihood)).orElseThrow();
  }

  /** To look for the likeliest fault tells that fault from the rest. */
  private void look() {
    cases.stream()
        .filter(each -> !each.alternative().isGood())
        .max(Comparator.comparingDouble(each -> each.alternative().probability()))
        .ifPresent(each -> look(each.alternative().faults().get(0)));
  }

  private void look(Fault fault) {
    List<Case> with = cases.stream().filter(each -> has(each, fault)).toList();
    List<Case> without = cases.stream().filter(each -> !has(each, fault)).toList();
    if (!without.isEmpty()) {
      add(
          fault.remedy(),
          LOOK_MINUTES,
          List.of(with, without),
          group -> group.equals(with) ? fault.sentence() : "not so");
    }
  }

  private static boolean has(Case each, Fault fault) {
    return each.alternative().faults().contains(fault);
  }

  private void add(
      String instruction,
      double minutes,
      List<List<Case>> groups,
      Function<List<Case>, String> seen) {
    double all = groups.stream().mapToDouble(NextTests::probability).sum();
    List<NextTest.Result> results = new ArrayList<>();
    double bits = 0;
    for (List<Case> group : groups) {
      double share = probability(group) / all;
      bits += bits(share);
      if (share >= LEAST_RESULT) {
        results.add(new NextTest.Result(seen.apply(group), meaning(group), share));
      }
    }
    results.sort(Comparator.comparingDouble(result -> -result.probability()));
    tests.add(
        new Grouped(
            new NextTest(instruction, Math.max(POP_MINUTES, minutes), bits, results), groups));
  }

  private static double bits(double share) {
    return share > 0 ? -share * Math.log(share) / Math.log(2) : 0;
  }

  private static double probability(List<Case> group) {
    return group.stream().mapToDouble(each -> each.alternative().probability()).sum();
  }

  private static String meaning(List<Case> group) {
    List<String> likely =
        group.stream()
            .sorted(Comparator.comparingDouble(each -> -each.alternative().probability()))
            .map(each -> each.alternative().sentence())
            .limit(3)
            .toList();
    return String.join(", or ", likely) + (group.size() > 3 ? ", or others" : "");
  }
}
