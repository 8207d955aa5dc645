package conewise.station.study;

import conewise.analysis.diagnosis.Alternative;
import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.FaultKind;
import conewise.analysis.diagnosis.Finding;
import conewise.analysis.judgement.Verdict;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * One box of a study: how it was built and what was said of it.
 *
 * @param number its number in the study
 * @param plan the plan's name
 * @param truth the faults that were built in
 * @param verdict what was said
 * @param diagnosis what was weighed, where it came to that
 * @param readings what was read of the box beside what was built, where the likeliest explanation
 *     is the true one
 * @param decidable whether the prediction, from the plan alone, says that it can be decided
 * @param judgeSeconds how long the judge took
 */
record StudyCase(
    int number,
    String plan,
    List<Fault> truth,
    Verdict verdict,
    Optional<Diagnosis> diagnosis,
    List<StudyReading> readings,
    boolean decidable,
    double judgeSeconds) {

  private static final Set<FaultKind> REVERSED =
      Set.of(FaultKind.DRIVER_REVERSED, FaultKind.COIL_REVERSED);

  StudyCase {
    truth = List.copyOf(truth);
    readings = List.copyOf(readings);
  }

  boolean isGood() {
    return truth.isEmpty();
  }

  boolean isReversed() {
    return truth.stream().anyMatch(fault -> REVERSED.contains(fault.kind()));
  }

  /** True where the first of what may be the case has the truth in its set. */
  boolean namedFirst() {
    return diagnosis.isPresent() && holdsTruth(diagnosis.get().findings().get(0));
  }

  /** True where the truth is among what the judge says that it cannot tell from the first. */
  boolean namedInSet() {
    return diagnosis.isPresent()
        && diagnosis.get().undistinguished().stream().anyMatch(this::holdsTruth);
  }

  /** How many boxes that differ at the terminals that set holds. */
  int setSize() {
    return diagnosis.map(each -> each.undistinguished().size()).orElse(0);
  }

  private boolean holdsTruth(Finding finding) {
    Set<String> ids = ids(truth);
    return finding.alternatives().stream()
        .map(Alternative::faults)
        .anyMatch(faults -> ids(faults).equals(ids));
  }

  private static Set<String> ids(List<Fault> faults) {
    return faults.stream().map(Fault::id).collect(Collectors.toSet());
  }

  String truthWords() {
    return isGood() ? "good" : truth.stream().map(Fault::id).collect(Collectors.joining(" + "));
  }
}
