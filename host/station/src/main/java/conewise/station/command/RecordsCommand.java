package conewise.station.command;

import picocli.CommandLine.Command;

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
final class RecordsCommand extends CommandGroup {}
