package conewise.analysis.judgement;

import static conewise.analysis.judgement.Evidence.text;

import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.judgement.Verdict.Suspect;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.plan.BoxPlan.Kind;
import conewise.analysis.plan.PlannedResistance;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Names what may be wrong, most likely first, from the checks that did not pass. */
final class Suspicion {
  private static final String SWAP =
      "Swap the leads of one driver at its terminals and sweep again.";
  private static final String METER = "Measure each coil with a meter, its links removed.";

  private final Evidence evidence;
  private final List<Check> checks;
  private final List<Suspect> suspects = new ArrayList<>();

  private Suspicion(Evidence evidence, List<Check> checks) {
    this.evidence = evidence;
    this.checks = checks;
  }

  static List<Suspect> of(Evidence evidence, List<Check> checks) {
    Suspicion suspicion = new Suspicion(evidence, checks);
    suspicion.failed("dc-resistance").ifPresent(suspicion::resistance);
    suspicion.failed("peaks").ifPresent(suspicion::peaks);
    suspicion.failed("tuning").ifPresent(suspicion::tuning);
    suspicion.failed("resonance").ifPresent(suspicion::resonance);
    suspicion.failed("leak").ifPresent(suspicion::leak);
    suspicion.failed("peak-height").ifPresent(suspicion::peakHeight);
    suspicion.failed("rated-impedance").ifPresent(suspicion::rated);
    suspicion.undecidedPolarity();
    return List.copyOf(suspicion.suspects);
  }

  private Optional<Check> failed(String id) {
    return checks.stream()
        .filter(check -> check.id().equals(id) && check.decision() == Decision.FAIL)
        .findFirst();
  }

  private static boolean low(Check check) {
    return check.reading() instanceof Found<Reading> found
        && check.limits().isPresent()
        && found.value().value() < check.limits().get().low();
  }

  private void add(List<String> faults, String because, String test) {
    suspects.add(new Suspect(faults, because, test));
  }

  private void resistance(Check check) {
    if (!(check.reading() instanceof Found<Reading> found)) {
      return;
    }
    double tolerance = evidence.plan().limits().dcToleranceFraction();
    Interval seen = found.value().interval();
    List<String> faults = new ArrayList<>();
    for (PlannedResistance.Slip slip : PlannedResistance.slips(evidence.plan())) {
      Interval around = new Interval(slip.ohm() * (1 - tolerance), slip.ohm() * (1 + tolerance));
      if (Double.isFinite(slip.ohm())
          && !around.isApartFrom(seen)
          && !faults.contains(slip.slip())) {
        faults.add(slip.slip());
      }
    }
    faults.add(
        low(check)
            ? "coils of a lower resistance than planned"
            : "a bad joint, a hot coil or coils of a higher resistance than planned");
    add(
        faults,
        text(
            "the DC resistance is %s ohm, %s times the planned %s ohm",
            Checks.number(found.value().value()),
            Checks.number(found.value().value() / evidence.plannedOhm()),
            Checks.number(evidence.plannedOhm())),
        METER + " Compare the links with the plan.");
  }

  private void peaks(Check check) {
    double seen = check.reading() instanceof Found<Reading> found ? found.value().value() : 0;
    if (seen == 0) {
      flat();
    } else if (seen > evidence.expectedPeaks()) {
      tooMany();
    } else {
      onePeak();
    }
  }

  private void flat() {
    List<String> faults = new ArrayList<>();
    if (evidence.plan().drivers().stream().anyMatch(driver -> driver.coilOhm().size() > 1)) {
      faults.add("one coil of a driver is wired backwards");
    }
    faults.add("the cones are seized");
    faults.add("something other than a driver is on the terminals");
    add(
        faults,
        "|Z| has no peak at all: no cone moves",
        "Push the cones; if they move freely, swap the leads of one coil and sweep again.");
  }

  private void tooMany() {
    List<String> faults = new ArrayList<>();
    if (evidence.plan().drivers().stream().anyMatch(driver -> driver.coilOhm().size() > 1)) {
      faults.add("one coil of one driver is wired backwards, open or shorted");
    }
    if (evidence.plan().drivers().size() > 2 && evidence.shared()) {
      faults.add("one of the drivers is wired backwards");
    }
    if (evidence.plan().drivers().size() > 1) {
      faults.add("one driver is dead or of another kind");
    }
    faults.add("a large hole");
    add(
        faults,
        "|Z| has more peaks than this kind of box: one part moves on its own",
        PatternChecks.POP_TEST + " A dead driver moves about a third as much, backwards. " + METER);
  }

  private void onePeak() {
    Optional<Interval> own = evidence.ownResonanceHz();
    Optional<Estimate> peak =
        evidence.features().mainResonanceHz() instanceof Found<Estimate> found
            ? Optional.of(found.value())
            : Optional.empty();
    if (own.isPresent() && peak.isPresent()) {
      String where =
          text(
              "one peak at %s Hz and no dip, and the drivers alone resonate at %s",
              Checks.number(peak.get().value()), Checks.range(own.get(), "Hz"));
      if (own.get().isApartFrom(peak.get().interval())) {
        blocked(where);
        reversed(where, false);
      } else {
        reversed(where, true);
        blocked(where);
      }
      return;
    }
    List<String> faults = new ArrayList<>(backwards());
    faults.add("the vent is blocked or missing");
    faults.add("the drivers are out of the box");
    add(faults, "one peak and no dip", wayOut());
  }

  private List<String> backwards() {
    if (!evidence.shared()) {
      return List.of();
    }
    return evidence.plan().drivers().size() == 2
        ? List.of("one of the two drivers is wired backwards")
        : List.of("one or more drivers are wired backwards (which ones the terminals cannot show)");
  }

  private String wayOut() {
    return evidence.shared() ? SWAP + " Then hold a hand at the vent." : "Hold a hand at the vent.";
  }

  private void reversed(String because, boolean openAirToo) {
    List<String> faults = new ArrayList<>(backwards());
    if (openAirToo) {
      faults.add("the drivers are out of the box");
      faults.add("the box has a very large hole");
    }
    if (!faults.isEmpty()) {
      add(faults, because, evidence.shared() ? SWAP : "Look for the hole.");
    }
  }

  private void blocked(String because) {
    add(
        List.of("the vent is blocked or missing"),
        because,
        "Hold a hand at the vent while a low tone plays: there must be wind.");
  }

  private void tuning(Check check) {
    if (low(check)) {
      add(
          List.of("the vent is too long or too narrow", "the volume is larger than planned"),
          "the tuning is too low",
          "Measure the vent's length and diameter.");
    } else {
      add(
          List.of(
              "the vent is too short or too wide",
              "the volume is smaller than planned",
              "a large leak"),
          "the tuning is too high",
          "Measure the vent's length and diameter, then feel for a leak along the seams.");
    }
  }

  private void resonance(Check check) {
    if (!low(check)) {
      add(
          List.of("the volume is smaller than planned", "stuffing is missing", "stiffer drivers"),
          "the resonance is too high",
          "Look into the box.");
      return;
    }
    boolean atOwn =
        evidence
            .ownResonanceHz()
            .map(
                own ->
                    check.reading() instanceof Found<Reading> found
                        && !own.isApartFrom(found.value().interval()))
            .orElse(true);
    List<String> faults = new ArrayList<>(backwards());
    faults.add("a large hole");
    List<String> softer = List.of("the volume is larger than planned", "softer drivers");
    if (atOwn) {
      add(
          faults,
          "the resonance is too low, about where the drivers alone resonate",
          evidence.shared() ? SWAP : "Play a low tone and feel for the hole.");
      add(softer, "the resonance is too low", "Compare the volume with the plan.");
    } else {
      add(softer, "the resonance is too low", "Compare the volume with the plan.");
      add(faults, "the resonance is too low", evidence.shared() ? SWAP : "Feel for a hole.");
    }
  }

  private void leak(Check check) {
    if (!low(check)) {
      add(
          List.of("a leak", "losses in the vent", "too much stuffing"),
          "the dip is too high over the DC resistance",
          "Play a low tone and pass a hand along the seams and gaskets.");
    }
  }

  private void peakHeight(Check check) {
    if (low(check)) {
      add(
          List.of("a leak", "a rubbing coil", "a lossy surround", "too much stuffing"),
          "the peak is too low over the DC resistance",
          "Push the cones and listen for rubbing; then feel for a leak with a low tone.");
    } else {
      add(List.of("stuffing is missing"), "the peak is too high", "Look into the box.");
    }
  }

  private void rated(Check check) {
    if (failed("dc-resistance").isEmpty()) {
      add(
          List.of("a shorted coil", "a coil of a lower impedance than planned"),
          check.reason(),
          METER);
    }
  }

  private void undecidedPolarity() {
    checks.stream()
        .filter(c -> c.id().equals("polarity") && c.decision() == Decision.UNDECIDED)
        .filter(c -> failed("peaks").isEmpty() && failed("resonance").isEmpty())
        .forEach(
            c ->
                add(
                    List.of(
                        evidence.plan().kind() == Kind.SEALED || evidence.apart()
                            ? "a driver wired backwards cannot be excluded"
                            : "a driver or a coil wired backwards, or a dead driver, cannot be"
                                + " excluded"),
                    BenchDoubt.lower(c.reason()).replaceAll("\\.$", ""),
                    c.nextStep().orElse(PatternChecks.POP_TEST)));
  }
}
