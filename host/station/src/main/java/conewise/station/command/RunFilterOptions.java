package conewise.station.command;

import conewise.analysis.judgement.Decision;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.records.FilterWords;
import conewise.station.records.RunFilter;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Optional;
import java.util.function.Function;
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
    ZoneId zone = ZoneId.systemDefault();
    Optional<Instant> from = read("--since", since, text -> FilterWords.from(text, zone));
    Optional<Instant> to = read("--until", until, text -> FilterWords.upTo(text, zone));
    Optional<Decision> decision = read("--outcome", outcome, FilterWords::decision);
    try {
      return new RunFilter(from, to, job, serial, decision, most);
    } catch (IllegalArgumentException impossible) {
      throw new CommandFailure(ExitCode.USAGE, sentence(impossible), impossible);
    }
  }

  static String sentence(IllegalArgumentException impossible) {
    String text = impossible.getMessage();
    return Character.toUpperCase(text.charAt(0)) + text.substring(1) + ".";
  }

  private static <T> Optional<T> read(
      String option, Optional<String> text, Function<String, T> reader) throws CommandFailure {
    try {
      return text.map(reader);
    } catch (IllegalArgumentException bad) {
      throw new CommandFailure(ExitCode.USAGE, option + " " + bad.getMessage(), bad);
    }
  }
}
