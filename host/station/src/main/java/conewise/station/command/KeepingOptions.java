package conewise.station.command;

import conewise.analysis.diagnosis.Observation;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.card.JobCard;
import conewise.station.judging.Judging;
import conewise.station.keeping.RunRecord;
import conewise.station.planfile.PlannedBoxFile;
import conewise.station.records.Appended;
import conewise.station.records.BoxRun;
import conewise.station.records.JigUsed;
import conewise.station.records.PlanText;
import conewise.station.records.RecordsException;
import conewise.station.records.Sighting;
import conewise.station.records.store.RecordPlace;
import conewise.station.records.store.RecordStore;
import java.io.IOException;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import picocli.CommandLine.Option;

/** Into which records a run goes, and what they are told of it that the jig cannot know. */
final class KeepingOptions {
  @Option(
      names = "--records",
      paramLabel = "PLACE",
      defaultValue = "${env:" + RecordsOptions.VARIABLE + "}",
      description = {
        "Keep the run in these records as well: a file, or jdbc:postgresql://...",
        "(docs/records.md). CONEWISE_RECORDS names them for every run."
      })
  private Optional<String> place = Optional.empty();

  @Option(
      names = "--job",
      paramLabel = "JOB",
      description = "What the box belongs to (the plan's name otherwise).")
  private Optional<String> job = Optional.empty();

  @Option(names = "--operator", paramLabel = "NAME", description = "Who is at the bench.")
  private Optional<String> operator = Optional.empty();

  @Option(
      names = "--station",
      paramLabel = "NAME",
      description = "Which bench this is (this machine's name otherwise).")
  private Optional<String> station = Optional.empty();

  @Option(
      names = "--temperature",
      paramLabel = "C",
      description = "Of the air, in degrees Celsius.")
  private Optional<Double> temperature = Optional.empty();

  /** The records, open, or none. */
  final class Opened implements AutoCloseable {
    private final Optional<RecordStore> store;
    private final String ofJob;
    private final PlanText plan;

    private Opened(Optional<RecordStore> store, String ofJob, PlanText plan) {
      this.store = store;
      this.ofJob = ofJob;
      this.plan = plan;
    }

    /** Appends the run; the card that comes back bears the attempt that the records counted. */
    JobCard append(
        RunRecord record,
        JigIdentity jig,
        Optional<String> calibration,
        List<Observation> seen,
        Instant started)
        throws CommandFailure {
      if (store.isEmpty()) {
        return record.card();
      }
      Instant now = Instant.now();
      try {
        List<Sighting> sightings =
            seen.stream().map(each -> Sighting.of(now, operator, each)).toList();
        BoxRun run =
            BoxRun.of(
                record.card(),
                ofJob,
                plan,
                bench(jig, calibration, started, now),
                record.captures(),
                sightings);
        Appended appended = store.get().append(run);
        return Judging.numbered(record.card(), appended.attempt());
      } catch (IllegalArgumentException unkept) {
        throw new CommandFailure(ExitCode.USAGE, RunFilterOptions.sentence(unkept), unkept);
      } catch (RecordsException trouble) {
        throw RecordsOptions.failure(trouble);
      }
    }

    @Override
    public void close() {
      store.ifPresent(RecordStore::close);
    }
  }

  private BoxRun.Bench bench(
      JigIdentity jig, Optional<String> calibration, Instant started, Instant finished) {
    JigUsed used =
        new JigUsed(
            jig.jig().serial(),
            jig.jig().board(),
            jig.jig().firmware(),
            calibration,
            temperature.map(OptionalDouble::of).orElse(OptionalDouble.empty()));
    return new BoxRun.Bench(
        operator,
        station.orElseGet(KeepingOptions::machine),
        used,
        started,
        finished,
        RootCommand.Version.text());
  }

  private static String machine() {
    try {
      return InetAddress.getLocalHost().getHostName();
    } catch (UnknownHostException nameless) {
      return "this machine";
    }
  }

  /** Opens them before anything is measured, so that a bad place is told at once. */
  Opened open(String planName, Path plan) throws CommandFailure {
    PlanText text;
    try {
      text = PlanText.of(plan.toString(), PlannedBoxFile.bytes(plan));
    } catch (IOException gone) {
      throw new CommandFailure(ExitCode.BAD_DATA, plan + " cannot be read.", gone);
    }
    try {
      Optional<RecordStore> store = Optional.empty();
      if (place.isPresent() && !place.get().isBlank()) {
        store = Optional.of(RecordStore.open(RecordPlace.of(place.get())));
      }
      return new Opened(store, job.orElse(planName), text);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
  }
}
