package conewise.station.shift;

import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.judgement.Verdict;
import conewise.station.records.BoxRun;
import conewise.station.records.Overruling;
import conewise.station.records.PlanText;
import java.time.Instant;
import java.util.List;
import java.util.Optional;

/** Keeps what a bench finds, before anybody sees it. */
public interface Keeper {
  /**
   * What is known where a run is kept.
   *
   * @param run its number there
   * @param attempt which attempt it is for the box, from 1
   */
  record Kept(long run, int attempt) {}

  /**
   * Something that came to a run after its first judgement: a sweep or a sighting, and what is said
   * of the box with it.
   *
   * @param sweep a sweep in another state
   * @param seen what was seen
   */
  record Further(
      Kept kept,
      Optional<SweptState> sweep,
      Optional<Observation> seen,
      Optional<String> by,
      PlanText plan,
      Instant at,
      String software,
      Verdict verdict) {}

  /**
   * Keeps a first judgement.
   *
   * @throws KeepingException when it could not be kept
   */
  Kept keep(BoxRun run) throws KeepingException;

  /**
   * Keeps what came to it.
   *
   * @throws KeepingException when it could not be kept
   */
  void further(Further more) throws KeepingException;

  /**
   * What people decided otherwise than the verdict of a kept run, in the order in which they did.
   * May be asked by any thread.
   *
   * @throws KeepingException when it cannot be read
   */
  List<Overruling> overrulings(Kept kept) throws KeepingException;
}
