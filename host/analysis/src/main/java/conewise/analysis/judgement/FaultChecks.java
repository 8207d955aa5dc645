package conewise.analysis.judgement;

import conewise.analysis.diagnosis.Alternative;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Finding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.diagnosis.NextTests;
import conewise.analysis.fit.Discrepancy;
import conewise.analysis.judgement.Check.Reading;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

/**
 * The checks that a diagnosis answers: are all drivers and coils the right way round, is the box
 * built as planned, and does anything that is known explain the curve at all.
 */
final class FaultChecks {
  static final String POLARITY = "polarity";
  static final String BUILD = "build";
  static final String EXPLAINED = "explained";

  /** Checks whose failure is a fault of the diagnosis. */
  static final Set<String> IDS = Set.of(POLARITY, BUILD);

  private static final Set<FaultKind> REVERSED =
      EnumSet.of(FaultKind.DRIVER_REVERSED, FaultKind.COIL_REVERSED);

  private static final Set<FaultKind> ANY_REVERSED =
      EnumSet.of(FaultKind.DRIVER_REVERSED, FaultKind.COIL_REVERSED, FaultKind.BOX_REVERSED);

  /** What a box may have and still play as planned. */
  private static final Set<FaultKind> EQUAL_LOAD = EnumSet.of(FaultKind.WIRED_OTHERWISE);

  /** A reversed driver is passed by mistake at most this often. */
  private static final double MOST_REVERSED = 0.005;

  private static final double MOST_WRONG = 0.05;
  private static final double LEAST_FAULTY = 0.95;

  /**
   * What the best hypothesis may be off, relative to |Z|, beside suspension and coil: three times
   * what a built box is at least taken to be.
   */
  private static final double MOST_OFF = 3 * Discrepancy.OF_BUILT_BOXES.smooth();

  private final PlannedBox plan;
  private final Diagnosis diagnosis;
  private final BoxJudge.Evidence more;
  private final NextTests tests;

  FaultChecks(PlannedBox plan, Diagnosis diagnosis, BoxJudge.Evidence more, NextTests tests) {
    this.plan = plan;
    this.diagnosis = diagnosis;
    this.more = more;
    this.tests = tests;
  }

  List<Check> all() {
    List<Check> checks = new ArrayList<>();
    unexplained().ifPresent(checks::add);
    checks.add(polarity());
    checks.add(build());
    return checks;
  }

  private Optional<Check> unexplained() {
    Discrepancy off = diagnosis.findings().get(0).fit().discrepancy();
    double larger = Math.max(off.smooth(), off.scattered());
    if (larger <= MOST_OFF) {
      return Optional.empty();
    }
    return Optional.of(
        new Check(
            EXPLAINED,
            "Explained by the plan or a known fault",
            Decision.UNDECIDED,
            Outcome.found(new Reading(larger, new Interval(larger, larger), "")),
            Optional.of(new Interval(0, MOST_OFF)),
            String.format(
                Locale.ROOT,
                "The best explanation is %.1f %% of |Z| off; at most %.0f %% may be: it is nothing"
                    + " that is known of such a box.",
                100 * larger,
                100 * MOST_OFF),
            Optional.of("Check that the plan is this box's; sweep again; then look inside.")));
  }

  private Check polarity() {
    double reversed = diagnosis.probabilityOf(this::isReversed);
    Decision decision = decide(reversed, MOST_REVERSED);
    String reason =
        switch (decision) {
          case PASS ->
              String.format(
                  Locale.ROOT,
                  "Drivers and coils work together: the probability that one is reversed is %s.",
                  probability(reversed));
          case FAIL ->
              String.format(
                  Locale.ROOT,
                  "A driver or a coil is reversed, with a probability of %s.",
                  probability(reversed));
          default ->
              invisible()
                  ? "Drivers that do not share one air show the same curve whichever way they are"
                      + " wired."
                  : String.format(
                      Locale.ROOT,
                      "A driver or a coil may be reversed: the probability is %s; at most %s may"
                          + " be.",
                      probability(reversed),
                      probability(MOST_REVERSED));
        };
    return check(
        POLARITY,
        "Relative polarity",
        decision,
        1 - reversed,
        MOST_REVERSED,
        reason,
        this::isReversed);
  }

  private boolean invisible() {
    return diagnosis.findings().stream()
        .filter(Finding::mayBeGood)
        .anyMatch(each -> each.alternatives().stream().anyMatch(this::isReversed));
  }

  private Check build() {
    double right = diagnosis.probabilityOf(each -> !isWrongOtherwise(each));
    Decision decision =
        right <= 1 - LEAST_FAULTY
            ? Decision.FAIL
            : right >= 1 - MOST_WRONG ? Decision.PASS : Decision.UNDECIDED;
    String most =
        most().map(each -> BoxVerdict.sentence(each.alternatives())).orElse("something else");
    String reason =
        switch (decision) {
          case PASS ->
              String.format(
                  Locale.ROOT,
                  "All but the polarity is as planned, as far as the terminals show it: the"
                      + " probability is %s.",
                  probability(right));
          case FAIL ->
              String.format(
                  Locale.ROOT,
                  "Not as planned: most probably %s (%s).",
                  most,
                  probability(most().map(Finding::probability).orElse(0.0)));
          default ->
              String.format(
                  Locale.ROOT,
                  "It may be as planned (%s), or %s (%s).",
                  probability(right),
                  most,
                  probability(most().map(Finding::probability).orElse(0.0)));
        };
    return check(
        BUILD, "All else as planned", decision, right, MOST_WRONG, reason, this::isWrongOtherwise);
  }

  private Optional<Finding> most() {
    return diagnosis.findings().stream()
        .filter(each -> isWrongOtherwise(each.likeliest()))
        .findFirst();
  }

  /**
   * What of the most probable faults, as far as anyone has looked, cannot be told apart, likeliest
   * first; none where nothing is wrong.
   */
  List<Alternative> worst() {
    List<Alternative> worst = List.of();
    for (Finding finding : diagnosis.findings()) {
      List<Alternative> wrong =
          finding.alternatives().stream()
              .filter(each -> isReversed(each) || isWrongOtherwise(each))
              .toList();
      if (probability(wrong) > probability(worst)) {
        worst = wrong;
      }
    }
    return worst;
  }

  private static double probability(List<Alternative> alternatives) {
    return alternatives.stream().mapToDouble(Alternative::probability).sum();
  }

  /** Reversed against the others; a box reversed as a whole counts where someone has looked. */
  private boolean isReversed(Alternative alternative) {
    return alternative.faults().stream()
        .anyMatch(
            fault ->
                looked()
                    ? ANY_REVERSED.contains(fault.kind())
                    : REVERSED.contains(fault.kind()) && !isAbsolute(alternative));
  }

  private boolean looked() {
    return !more.observations().isEmpty();
  }

  /** A lone driver reversed as a whole: nothing at the terminals ever shows it. */
  private boolean isAbsolute(Alternative alternative) {
    return plan.drivers().size() == 1
        && alternative.faults().stream()
            .allMatch(fault -> fault.kind() == FaultKind.DRIVER_REVERSED);
  }

  /** Wrong in more than its polarity. */
  private boolean isWrongOtherwise(Alternative alternative) {
    return !alternative.faults().stream()
        .allMatch(fault -> ANY_REVERSED.contains(fault.kind()) || isHarmless(alternative, fault));
  }

  /** What plays as planned, as far as anyone has looked. */
  private boolean isHarmless(Alternative alternative, Fault fault) {
    boolean unseen = fault.kind() == FaultKind.BOX_REVERSED || isAbsolute(alternative);
    return (!looked() && unseen) || (EQUAL_LOAD.contains(fault.kind()) && isLikeGood(alternative));
  }

  private boolean isLikeGood(Alternative alternative) {
    return diagnosis.findings().stream()
        .filter(Finding::mayBeGood)
        .anyMatch(each -> each.alternatives().contains(alternative));
  }

  private static Decision decide(double wrong, double most) {
    return wrong <= most
        ? Decision.PASS
        : wrong >= LEAST_FAULTY ? Decision.FAIL : Decision.UNDECIDED;
  }

  private Check check(
      String id,
      String title,
      Decision decision,
      double value,
      double most,
      String reason,
      Predicate<Alternative> question) {
    double shown = Math.min(1, Math.max(0, value));
    return new Check(
        id,
        title,
        decision,
        Outcome.found(new Reading(shown, new Interval(shown, shown), "probability")),
        Optional.of(new Interval(1 - most, 1)),
        reason,
        decision == Decision.PASS
            ? Optional.empty()
            : Optional.of(
                tests
                    .about(question)
                    .map(NextTest::instruction)
                    .orElse("See what may be wrong below, most likely first.")));
  }

  private static String probability(double value) {
    return value > 0.999
        ? "over 0.999"
        : value < 0.001 ? "under 0.001" : String.format(Locale.ROOT, "%.2g", value);
  }
}
