package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import conewise.station.records.RecordsException;
import conewise.station.records.store.RecordStore;
import conewise.station.records.trend.SerialRange;
import conewise.station.records.trend.Untested;
import java.io.IOException;
import java.nio.charset.MalformedInputException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code records untested}. */
@Command(
    name = "untested",
    mixinStandardHelpOptions = true,
    description = "Which serials of a job have never had a run.")
final class RecordsUntestedCommand implements Callable<Integer> {
  private static final long MOST_BYTES = 4L << 20;

  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Option(names = "--job", required = true, paramLabel = "JOB", description = "Of this job.")
  private String job;

  @Option(names = "--serials", paramLabel = "FILE", description = "A file with a serial a line.")
  private Optional<Path> file = Optional.empty();

  @Parameters(
      paramLabel = "SERIALS",
      arity = "0..*",
      description = "Single serials, or ranges like C-0001..C-0120.")
  private List<String> serials = List.of();

  @Override
  public Integer call() throws CommandFailure {
    Set<String> wanted = wanted();
    Untested untested;
    try (RecordStore store = place.open()) {
      List<String> jobs = store.jobs();
      if (!jobs.contains(job)) {
        throw new CommandFailure(
            ExitCode.BAD_DATA,
            "The records have no job \"" + job + "\"; they have " + String.join(", ", jobs) + ".");
      }
      untested = Untested.of(wanted, store.serials(job));
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    Screen screen = records.screen();
    if (answer.json) {
      ObjectNode json = JsonAnswer.of("records untested", ExitCode.PASS);
      json.put("job", job).put("asked", untested.asked());
      ArrayNode list = json.putArray("untested");
      untested.missing().forEach(list::add);
      screen.out().println(json);
    } else {
      untested.missing().forEach(serial -> screen.out().println(PlainText.tame(serial)));
      screen
          .out()
          .println(
              untested.missing().size()
                  + " of "
                  + untested.asked()
                  + " serials have never had a run.");
    }
    return ExitCode.PASS.number();
  }

  private Set<String> wanted() throws CommandFailure {
    Set<String> wanted = new LinkedHashSet<>();
    try {
      wanted.addAll(SerialRange.all(serials));
    } catch (IllegalArgumentException bad) {
      throw new CommandFailure(ExitCode.USAGE, RunFilterOptions.sentence(bad), bad);
    }
    if (file.isPresent()) {
      wanted.addAll(lines(file.get()));
    }
    if (wanted.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "No serials were named; write a range like C-0001..C-0120, or --serials FILE.");
    }
    return wanted;
  }

  private static List<String> lines(Path file) throws CommandFailure {
    try {
      if (Files.size(file) > MOST_BYTES) {
        throw new CommandFailure(
            ExitCode.BAD_DATA,
            file + " has " + Files.size(file) + " bytes; a list of serials has at most 4 MiB.");
      }
      return Files.readAllLines(file).stream()
          .map(String::strip)
          .filter(line -> !line.isEmpty())
          .toList();
    } catch (MalformedInputException bad) {
      throw new CommandFailure(
          ExitCode.BAD_DATA, file + " is no text of UTF-8; write a serial a line.", bad);
    } catch (IOException gone) {
      throw new CommandFailure(ExitCode.BAD_DATA, file + " cannot be read.", gone);
    }
  }
}
