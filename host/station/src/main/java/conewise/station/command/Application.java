package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import conewise.station.files.Nearest;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;

/** Runs one command line and turns whatever happens into an answer and an exit code. */
public final class Application {
  private final Screen screen;
  private final boolean json;

  private Application(Screen screen, boolean json) {
    this.screen = screen;
    this.json = json;
  }

  /**
   * Runs.
   *
   * @param screen where the answer goes
   * @param arguments the command and its options
   * @return the exit code; see {@link ExitCode}
   */
  public static int run(Screen screen, String... arguments) {
    return new Application(screen, List.of(arguments).contains("--json")).run(arguments);
  }

  private int run(String... arguments) {
    CommandLine line = new CommandLine(new RootCommand(screen));
    line.setColorScheme(CommandLine.Help.defaultColorScheme(Ansi.OFF));
    line.setOut(new PrintWriter(screen.out(), true, screen.charset()));
    line.setErr(new PrintWriter(screen.err(), true, screen.charset()));
    line.setCaseInsensitiveEnumValuesAllowed(true);
    line.setParameterExceptionHandler((problem, given) -> misused(problem));
    line.setExecutionExceptionHandler((problem, command, parsed) -> failed(problem, command));
    return line.execute(arguments);
  }

  private int misused(CommandLine.ParameterException problem) {
    String command = problem.getCommandLine().getCommandSpec().qualifiedName();
    String sentence = PlainText.tame(sentence(problem)).replaceFirst("^Error: ", "");
    String stop = sentence.endsWith(".") ? "" : ".";
    String help = " See what is allowed with: " + command + " --help";
    return answer(
        problem.getCommandLine().getCommandName(), ExitCode.USAGE, sentence + stop + help);
  }

  private static String sentence(CommandLine.ParameterException problem) {
    CommandLine line = problem.getCommandLine();
    if (problem instanceof CommandLine.UnmatchedArgumentException unmatched
        && !line.getSubcommands().isEmpty()
        && !unmatched.isUnknownOption()) {
      List<String> commands =
          line.getSubcommands().entrySet().stream()
              .filter(each -> !each.getValue().getCommandSpec().usageMessage().hidden())
              .map(Map.Entry::getKey)
              .toList();
      String given = unmatched.getUnmatched().get(0);
      return "There is no command \""
          + given
          + "\""
          + Nearest.to(given, commands).map(near -> "; " + near + " is near").orElse("")
          + "; the commands are "
          + String.join(", ", commands)
          + ".";
    }
    return problem.getMessage();
  }

  private int failed(Exception problem, CommandLine command) {
    if (problem instanceof CommandFailure failure) {
      return answer(command.getCommandName(), failure.exitCode(), failure.getMessage());
    }
    String sentence = "Conewise met a fault of its own (" + kind(problem) + "). " + kept(problem);
    return answer(command.getCommandName(), ExitCode.UNEXPECTED, sentence);
  }

  private static String kind(Exception problem) {
    String message = problem.getMessage();
    String name = problem.getClass().getSimpleName();
    return message == null ? name : name + ": " + PlainText.tame(message);
  }

  private static String kept(Exception problem) {
    try {
      Path file = Files.createTempFile("conewise-fault-", ".txt");
      try (PrintWriter writer =
          new PrintWriter(Files.newBufferedWriter(file, StandardCharsets.UTF_8))) {
        problem.printStackTrace(writer);
      }
      return "The details are in " + file + "; please report it with that file.";
    } catch (IOException e) {
      return "The details could not be written either: " + e.getMessage();
    }
  }

  private int answer(String command, ExitCode exitCode, String sentence) {
    screen.err().println("conewise: " + sentence);
    if (json) {
      screen.out().println(JsonAnswer.failure(command, exitCode, sentence));
    }
    return exitCode.number();
  }
}
