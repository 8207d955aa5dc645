package conewise.station.command;

import conewise.station.answer.ExitCode;
import conewise.station.answer.Screen;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The word {@code conewise} alone: shows what can be done. */
@Command(
    name = "conewise",
    mixinStandardHelpOptions = true,
    subcommands = {
      DemoCommand.class,
      PortsCommand.class,
      IdentifyCommand.class,
      CalibrateCommand.class,
      SelftestCommand.class,
      SweepCommand.class,
      JudgeCommand.class,
      CheckCommand.class,
      RecordsCommand.class,
      StationCommand.class,
      FixtureCommand.class,
      PopCommand.class,
      FitCommand.class,
      PredictCommand.class,
      ToneCommand.class,
      WorkOutCommand.class,
      LearnCommand.class,
      StudyCommand.class,
      LabCommand.class,
      VirtualJigCommand.class,
      ConformCommand.class,
      WarmUpCommand.class
    },
    versionProvider = RootCommand.Version.class,
    description = "Proves a loudspeaker box right by its impedance before it leaves the bench.",
    footerHeading = "%nExit codes:%n",
    footer = {
      "  0 pass, or done    1 fail    2 undecided    3 not judged",
      "  64 wrong command line  65 bad data  69 no jig  70 own fault  74 not written",
      "Take the box off every amplifier before it meets the jig."
    })
final class RootCommand implements Callable<Integer> {
  private final Screen screen;

  @Spec private CommandSpec spec;

  RootCommand(Screen screen) {
    this.screen = screen;
  }

  Screen screen() {
    return screen;
  }

  @Override
  public Integer call() {
    spec.commandLine().usage(spec.commandLine().getOut());
    return ExitCode.USAGE.number();
  }

  /** The version that the build wrote into the application. */
  static final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() {
      return new String[] {"Conewise " + text()};
    }

    static String text() {
      return Optional.ofNullable(RootCommand.class.getPackage().getImplementationVersion())
          .orElse("(not packaged)");
    }
  }
}
