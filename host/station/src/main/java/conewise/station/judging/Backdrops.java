package conewise.station.judging;

import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultPlace;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.plan.PlannedBox;
import conewise.analysis.prediction.ExpectedBand;
import conewise.analysis.prediction.Explanation;
import conewise.station.card.Backdrop;
import conewise.station.card.Backdrop.Suspected;
import conewise.station.card.JobCard;
import conewise.station.prediction.FaultWords;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Puts behind a card's curve what it is to be held against. Each plan's band is computed once; may
 * be used by several threads.
 */
public final class Backdrops {
  /** What is less probable leaves no check undecided, and is no picture's business. */
  private static final double LEAST = 0.05;

  private final Map<PlannedBox, ExpectedBand> bands = new ConcurrentHashMap<>();

  /** Where the curve of a plan's boxes is expected; about a tenth of a second the first time. */
  public ExpectedBand expected(PlannedBox plan) {
    return bands.computeIfAbsent(plan, ExpectedBand::of);
  }

  /** The same card with its backdrop; one without a curve stays as it is. */
  public JobCard behind(JobCard card) {
    if (!(card.measurement().curve() instanceof Found<ImpedanceCurve> measured)
        || measured.value().highestHz() <= 0) {
      return card;
    }
    return card.with(
        new Backdrop(Optional.of(expected(card.plan())), suspected(card, measured.value())));
  }

  /** What the verdict takes to be likeliest. */
  private static Optional<Suspected> suspected(JobCard card, ImpedanceCurve measured) {
    return card.verdict().suspects().stream()
        .findFirst()
        .filter(suspect -> suspect.probability() >= LEAST)
        .map(suspect -> suspected(card.plan(), suspect.faults(), measured));
  }

  private static Suspected suspected(
      PlannedBox plan, List<String> sentences, ImpedanceCurve measured) {
    List<List<Fault>> ways =
        sentences.stream().flatMap(each -> Explanation.faults(plan, each).stream()).toList();
    // The terminals cannot tell the ways from one another: the first one's curve is that of all.
    Optional<ImpedanceCurve> curve =
        ways.stream()
            .findFirst()
            .map(faults -> Explanation.of(plan, faults, measured))
            .flatMap(Backdrops::curve);
    Set<Coil> coils =
        ways.stream()
            .flatMap(List::stream)
            .flatMap(fault -> coils(plan, fault))
            .collect(Collectors.toSet());
    return new Suspected(FaultWords.shared(sentences), curve, coils);
  }

  private static Optional<ImpedanceCurve> curve(Outcome<Explanation> laid) {
    return laid instanceof Found<Explanation> found
        ? Optional.of(found.value().curve())
        : Optional.empty();
  }

  /** Those of a driver or a coil that is named; a fault of the whole box speaks of none. */
  private static Stream<Coil> coils(PlannedBox plan, Fault fault) {
    FaultPlace place = fault.kind().place();
    return place == FaultPlace.DRIVER || place == FaultPlace.COIL
        ? plan.wiring().coils().stream().filter(coil -> isTouched(coil, fault.touches()))
        : Stream.empty();
  }

  private static boolean isTouched(Coil coil, Set<String> touches) {
    return touches.contains("coil " + coil.driver() + "." + coil.number())
        || touches.contains("motion of " + coil.driver());
  }
}
