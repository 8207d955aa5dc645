package conewise.station.command;

import conewise.station.answer.ExitCode;
import conewise.station.answer.Screen;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code fixture}: whether a bench may be believed. */
@Command(
    name = "fixture",
    mixinStandardHelpOptions = true,
    description = "Whether this bench may be believed (docs/fixture.md).",
    subcommands = {
      FixtureStudyCommand.class,
      FixtureChallengeCommand.class,
      FixtureChartCommand.class,
      FixtureDueCommand.class
    })
final class FixtureCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Spec private CommandSpec spec;

  Screen screen() {
    return root.screen();
  }

  @Override
  public Integer call() {
    spec.commandLine().usage(spec.commandLine().getOut());
    return ExitCode.USAGE.number();
  }
}
