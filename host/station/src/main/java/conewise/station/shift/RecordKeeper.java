package conewise.station.shift;

import conewise.station.records.Appended;
import conewise.station.records.BoxRun;
import conewise.station.records.Overruling;
import conewise.station.records.RecordsException;
import conewise.station.records.Sighting;
import conewise.station.records.store.RecordStore;
import java.util.List;

/** Keeps a bench's results in the records. */
public final class RecordKeeper implements Keeper {
  private final RecordStore store;

  /** In this store, which stays the caller's to close. */
  public RecordKeeper(RecordStore store) {
    this.store = store;
  }

  @Override
  public Kept keep(BoxRun run) throws KeepingException {
    try {
      Appended appended = store.append(run);
      return new Kept(appended.id(), appended.attempt());
    } catch (RecordsException failed) {
      throw new KeepingException(failed.getMessage(), failed);
    }
  }

  @Override
  public List<Overruling> overrulings(Kept kept) throws KeepingException {
    try {
      return store.overrulings(kept.run());
    } catch (RecordsException failed) {
      throw new KeepingException(failed.getMessage(), failed);
    }
  }

  @Override
  public void further(Further more) throws KeepingException {
    try {
      store.addFurther(
          more.kept().run(),
          more.sweep(),
          more.seen().map(seen -> Sighting.of(more.at(), more.by(), seen)),
          more.plan(),
          more.at(),
          more.software(),
          more.verdict());
    } catch (RecordsException failed) {
      throw new KeepingException(failed.getMessage(), failed);
    }
  }
}
