package conewise.station.command;

import conewise.analysis.judgement.Decision;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.card.VerdictSign;
import conewise.station.records.RunFilter;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.Optional;
import picocli.CommandLine.Option;

/** Which of the kept runs a command means. */
final class RunFilterOptions {
  @Option(
      names = "--since",
      paramLabel = "DATE",
      description = "Finished on that day or later: 2026-11-23, or an instant with its zone.")
  private Optional<String> since = Optional.empty();

  @Option(names = "--until", paramLabel = "DATE", description = "Finished on that day or earlier.")
  private Optional<String> until = Optional.empty();

  @Option(names = "--job", paramLabel = "JOB", description = "Of this job.")
  private Optional<String> job = Optional.empty();

  @Option(names = "--serial", paramLabel = "S", description = "Of this box.")
  private Optional<String> serial = Optional.empty();

  @Option(
      names = "--outcome",
      paramLabel = "WORD",
      description = "Judged so: pass, fail, undecided or not-judged.")
  private Optional<String> outcome = Optional.empty();

  Optional<String> job() {
    return job;
  }

  /** The filter; at most so many runs. */
  RunFilter filter(int most) throws CommandFailure {
    Optional<Instant> from = instant("--since", since, 0);
    Optional<Instant> to = instant("--until", until, 1);
    try {
      return new RunFilter(from, to, job, serial, decision(), most);
    } catch (IllegalArgumentException impossible) {
      throw new CommandFailure(ExitCode.USAGE, sentence(impossible), impossible);
    }
  }

  static String sentence(IllegalArgumentException impossible) {
    String text = impossible.getMessage();
    return Character.toUpperCase(text.charAt(0)) + text.substring(1) + ".";
  }

  private Optional<Decision> decision() throws CommandFailure {
    if (outcome.isEmpty()) {
      return Optional.empty();
    }
    return Optional.of(
        Arrays.stream(Decision.values())
            .filter(each -> VerdictSign.of(each).machineWord().equals(outcome.get()))
            .findFirst()
            .orElseThrow(
                () ->
                    new CommandFailure(
                        ExitCode.USAGE,
                        "--outcome is \""
                            + outcome.get()
                            + "\"; it must be pass, fail, undecided or not-judged.")));
  }

  private static Optional<Instant> instant(String option, Optional<String> text, int daysOn)
      throws CommandFailure {
    if (text.isEmpty()) {
      return Optional.empty();
    }
    try {
      if (text.get().contains("T")) {
        return Optional.of(Instant.parse(text.get()));
      }
      LocalDate day = LocalDate.parse(text.get()).plusDays(daysOn);
      return Optional.of(day.atStartOfDay(ZoneId.systemDefault()).toInstant());
    } catch (DateTimeException bad) {
      throw new CommandFailure(
          ExitCode.USAGE,
          option
              + " is \""
              + text.get()
              + "\"; write a day like 2026-11-23 or an instant like 2026-11-23T08:00:00Z.",
          bad);
    }
  }
}
