package conewise.station.command;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.outcome.Outcome;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.records.KeptRun;
import conewise.station.records.RecordsException;
import conewise.station.records.store.RecordStore;

/** Single runs out of the records. */
final class KeptRuns {
  private KeptRuns() {}

  static KeptRun run(RecordStore store, long id) throws CommandFailure, RecordsException {
    return store
        .runWithoutCaptures(id)
        .orElseThrow(
            () ->
                new CommandFailure(
                    ExitCode.BAD_DATA,
                    "There is no run "
                        + id
                        + " in "
                        + store.place().shown()
                        + "; conewise records list has their numbers."));
  }

  static ImpedanceCurve curve(KeptRun run) throws CommandFailure {
    if (run.run().measurement().curve() instanceof Outcome.Found<ImpedanceCurve> found) {
      return found.value();
    }
    throw new CommandFailure(
        ExitCode.BAD_DATA,
        "Run "
            + run.id()
            + " has no curve: "
            + ((Outcome.NoResult<ImpedanceCurve>) run.run().measurement().curve()).because()
            + ".");
  }
}
