package conewise.station.command;

import conewise.station.answer.Screen;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import picocli.CommandLine;

/** Looks at a command line without running it. */
public final class KnownCommands {
  private KnownCommands() {}

  /** What the application does not know of these words: a command or an option. */
  public static Optional<String> mistake(List<String> words) {
    CommandLine line = new CommandLine(new RootCommand(Screen.ofProcess()));
    line.setExpandAtFiles(false);
    collectErrors(line);
    // What a page leaves out for brevity, or a word in a number's place, is no mistake here.
    return Stream.iterate(
            line.parseArgs(words.toArray(String[]::new)),
            Objects::nonNull,
            CommandLine.ParseResult::subcommand)
        .flatMap(result -> result.errors().stream())
        .filter(CommandLine.UnmatchedArgumentException.class::isInstance)
        .map(CommandLine.UnmatchedArgumentException.class::cast)
        .filter(error -> !error.getUnmatched().get(0).startsWith("@"))
        .map(CommandLine.UnmatchedArgumentException::getMessage)
        .findFirst();
  }

  private static void collectErrors(CommandLine line) {
    line.getCommandSpec().parser().collectErrors(true);
    line.getSubcommands().values().forEach(KnownCommands::collectErrors);
  }
}
