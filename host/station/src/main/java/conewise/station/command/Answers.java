package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.answer.TextAnswer;
import conewise.station.card.JobCard;
import conewise.station.judging.Backdrops;
import conewise.station.report.JobCardPage;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;

/** Shows what the judging commands came to. */
final class Answers {
  private Answers() {}

  /**
   * Shows a card, as text or as JSON.
   *
   * @param places where things were written, by the name that they have in the JSON answer
   * @return the exit code of its verdict
   */
  static int show(
      Screen screen,
      AnswerOptions options,
      String command,
      JobCard card,
      Map<String, Path> places) {
    if (options.json) {
      ObjectNode answer = JsonAnswer.judged(command, card);
      places.forEach((name, path) -> answer.put(name, path.toString()));
      screen.out().println(answer);
    } else {
      TextAnswer.write(card, screen).forEach(screen.out()::println);
      if (!places.isEmpty()) {
        screen.out().println();
        places.forEach((name, path) -> screen.out().println("The " + name + " is in " + path));
      }
    }
    return ExitCode.of(card.verdict().decision()).number();
  }

  /** Writes a card's page; one that is there already is replaced. */
  static void writeReport(Path file, JobCard card) throws CommandFailure {
    try {
      if (file.toAbsolutePath().getParent() != null) {
        Files.createDirectories(file.toAbsolutePath().getParent());
      }
      Files.writeString(file, JobCardPage.write(new Backdrops().behind(card)));
    } catch (IOException e) {
      throw cannotWrite(file, e);
    }
  }

  static CommandFailure cannotWrite(Path file, IOException problem) {
    return new CommandFailure(
        ExitCode.CANNOT_WRITE,
        file
            + " cannot be written ("
            + reason(problem)
            + "); check the folder, its rights and the free space.",
        problem);
  }

  /** The system's own words are often nothing but the path. */
  private static String reason(IOException problem) {
    return problem instanceof java.nio.file.FileSystemException system && system.getReason() != null
        ? system.getReason()
        : problem.getClass().getSimpleName().replace("Exception", "");
  }
}
