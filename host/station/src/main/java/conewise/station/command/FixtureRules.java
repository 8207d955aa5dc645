package conewise.station.command;

import conewise.analysis.judgement.Verdict;
import conewise.protocol.JigIdentity;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.calibrating.CalibrationShelf;
import conewise.station.files.BadFileException;
import conewise.station.fixture.Artefact;
import conewise.station.fixture.Challenge;
import conewise.station.fixture.ChallengeFile;
import conewise.station.fixture.CheckChart;
import conewise.station.fixture.ShiftChallenge;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import conewise.station.selftest.CheckLog;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Option;

/** A shop's rules on its fixture (docs/fixture.md). */
final class FixtureRules {
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

  @Option(
      names = "--require-steady-fixture",
      description =
          "No box passes while the last reading of a check resistor is out of its chart's limits.")
  private boolean steadyRequired;

  /** What a jig's check resistors leave of a verdict. */
  @FunctionalInterface
  interface Rule {
    Verdict hold(JigIdentity jig, Verdict verdict);
  }

  /** The rule on check resistors; a log that cannot be read proves nothing, so it blocks. */
  Rule rule(CalibrationShelf shelf) {
    return steadyRequired
        ? (jig, verdict) -> CheckChart.hold(verdict, charts(shelf, jig))
        : (jig, verdict) -> verdict;
  }

  private static List<CheckChart> charts(CalibrationShelf shelf, JigIdentity jig) {
    try {
      return CheckChart.of(CheckLog.in(shelf.folderOf(jig)).read().readings(), CheckChart.BASELINE);
    } catch (BadFileException unread) {
      return List.of(CheckChart.unread(unread.getMessage()));
    }
  }

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
      Optional<ShiftChallenge> challenge, RecordStore store, String bench) throws RecordsException {
    if (challenge.isPresent()) {
      RunFilter recent =
          new RunFilter(
              Optional.of(Instant.now().minus(Duration.ofHours(hours))),
              Optional.empty(),
              Optional.of(Artefact.JOB),
              Optional.empty(),
              Optional.empty(),
              RunFilter.MOST);
      for (RunLine run : store.list(recent)) {
        if (run.station().equals(bench)) {
          challenge
              .get()
              .named(run.serial())
              .ifPresent(
                  artefact ->
                      challenge
                          .get()
                          .saw(artefact, run.decision(), run.headline(), run.finished()));
        }
      }
    }
    return challenge;
  }
}
