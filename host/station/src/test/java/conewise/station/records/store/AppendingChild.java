package conewise.station.records.store;

import conewise.station.records.BoxRun;
import conewise.station.records.SampleRuns;

/** A station that appends runs until it is killed, and says each one that was acknowledged. */
public final class AppendingChild {
  private AppendingChild() {}

  public static void main(String[] arguments) throws Exception {
    try (RecordStore store = RecordStore.open(RecordPlace.of(arguments[0]))) {
      System.out.println("open");
      while (true) {
        BoxRun run = SampleRuns.failed("one", "7", SampleRuns.MORNING);
        long id = store.append(run).id();
        System.out.println(id + " " + run.token());
      }
    }
  }
}
