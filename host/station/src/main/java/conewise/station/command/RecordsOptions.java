package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.records.RecordsException;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import picocli.CommandLine.Option;

/** Which records a command reads. */
final class RecordsOptions {
  /** What names the records where no option does. */
  static final String VARIABLE = "CONEWISE_RECORDS";

  @Option(
      names = "--records",
      paramLabel = "PLACE",
      defaultValue = "${env:" + VARIABLE + ":-conewise-results/records.db}",
      description = "File of the records, or jdbc:postgresql://... (default ${DEFAULT-VALUE}).")
  private String place;

  RecordStore open() throws CommandFailure {
    try {
      return RecordStore.openExisting(RecordPlace.of(place));
    } catch (RecordsException trouble) {
      throw failure(trouble);
    }
  }

  static CommandFailure failure(RecordsException trouble) {
    ExitCode code =
        trouble.kind() == RecordsException.Kind.NOT_WRITTEN
            ? ExitCode.CANNOT_WRITE
            : ExitCode.BAD_DATA;
    return new CommandFailure(code, trouble.getMessage(), trouble);
  }
}
