package conewise.station.shift;

import conewise.analysis.diagnosis.Observation;
import conewise.station.card.JobCard;
import conewise.station.keeping.RunRecord;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Keeps what a bench finds, before anybody sees it. */
public interface Keeper {
  /**
   * Keeps a first judgement.
   *
   * @param run card and raw captures
   * @param plan the plan's file
   * @param operator who worked at the bench
   * @return the card with the number of its attempt
   * @throws IOException with a sentence for people, when it could not be kept
   */
  JobCard keep(RunRecord run, Path plan, Optional<String> operator) throws IOException;

  /**
   * Keeps what a further test of the same attempt came to.
   *
   * @param run the new card, with the attempt's number, and the captures of a sweep made for it
   * @param seen what was seen of the box
   * @throws IOException with a sentence for people, when it could not be kept
   */
  void further(RunRecord run, List<Observation> seen, Optional<String> operator) throws IOException;
}
