package conewise.station.shift;

import conewise.analysis.diagnosis.Observation;
import conewise.station.card.JobCard;
import conewise.station.keeping.RunRecord;
import conewise.station.keeping.RunShelf;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;

/** Keeps a bench's results in folders. */
public final class ShelfKeeper implements Keeper {
  private final RunShelf shelf;

  /** In a shelf of folders. */
  public ShelfKeeper(RunShelf shelf) {
    this.shelf = shelf;
  }

  @Override
  public JobCard keep(RunRecord run, Path plan, Optional<String> operator) throws IOException {
    run.keep(shelf, plan);
    return run.card();
  }

  @Override
  public void further(RunRecord run, List<Observation> seen, Optional<String> operator)
      throws IOException {
    throw new IOException("folders keep first judgements alone");
  }
}
