package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.files.BadFileException;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.Challenge;
import conewise.station.fixture.ChallengeFile;
import conewise.station.fixture.FixtureJig;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.records.JigUsed;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import picocli.CommandLine.Option;

/** A shift's challenge (docs/fixture.md). */
final class ChallengeOptions {
  private static final int MOST_HOURS = 168;

  @Option(
      names = "--challenge",
      paramLabel = "FILE",
      description =
          "No box passes before this shift's known-good artefact passed and the known-bad one"
              + " failed (docs/fixture.md).")
  private Optional<Path> file = Optional.empty();

  @Option(
      names = "--challenge-hours",
      paramLabel = "H",
      defaultValue = "12",
      description = "So long a challenge that was met holds (default ${DEFAULT-VALUE}).")
  private int hours;

  /** The challenge of a shift, where the shop asks for one. */
  Optional<ShiftChallenge> challenge() throws CommandFailure {
    if (hours < 1 || hours > MOST_HOURS) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--challenge-hours is " + hours + "; it must be from 1 to " + MOST_HOURS + ".");
    }
    return file.isEmpty()
        ? Optional.empty()
        : Optional.of(new ShiftChallenge(read(file.get()), Duration.ofHours(hours)));
  }

  static Challenge read(Path file) throws CommandFailure {
    try {
      return ChallengeFile.read(file);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  /** The challenge with what the records know of it at this bench: a restart asks nothing anew. */
  Optional<ShiftChallenge> known(
      Optional<ShiftChallenge> challenge, RecordStore store, String bench, Instant now)
      throws RecordsException {
    if (challenge.isPresent()) {
      RunFilter recent =
          new RunFilter(
              Optional.of(now.minus(Duration.ofHours(hours))),
              Optional.empty(),
              Optional.of(Artefact.JOB),
              Optional.empty(),
              Optional.empty(),
              RunFilter.MOST);
      Set<Artefact> seen = new HashSet<>();
      for (RunLine run : store.list(recent)) {
        Optional<Artefact> artefact = challenge.get().named(run.serial());
        if (run.station().equals(bench) && artefact.isPresent() && seen.add(artefact.get())) {
          challenge
              .get()
              .saw(
                  artefact.get(),
                  run.decision(),
                  run.headline(),
                  run.finished(),
                  readBy(store, run));
        }
      }
    }
    return challenge;
  }

  private static FixtureJig readBy(RecordStore store, RunLine run) throws RecordsException {
    JigUsed jig = store.runWithoutCaptures(run.id()).orElseThrow().run().jig();
    return new FixtureJig(jig.serial(), FixtureJig.BEFORE, jig.calibration());
  }
}
