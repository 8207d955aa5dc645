package conewise.station.command;

import conewise.station.answer.ExitCode;
import conewise.station.answer.Screen;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** {@code records}: what was kept of all runs. */
@Command(
    name = "records",
    mixinStandardHelpOptions = true,
    description = "Reads what check and the station kept of every run (docs/records.md).",
    subcommands = {
      RecordsListCommand.class,
      RecordsShowCommand.class,
      RecordsCompareCommand.class,
      RecordsExportCommand.class,
      RecordsJudgeAgainCommand.class,
      RecordsOverruleCommand.class,
      RecordsYieldCommand.class,
      RecordsTrendCommand.class,
      RecordsUntestedCommand.class,
      RecordsPageCommand.class
    })
final class RecordsCommand implements Callable<Integer> {
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
