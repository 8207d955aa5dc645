package conewise.station.command;

import picocli.CommandLine.Command;

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
final class FixtureCommand extends CommandGroup {}
