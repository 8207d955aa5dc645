package conewise.station.command;

import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.Screen;
import conewise.station.calculation.BadEntryException;
import conewise.station.calculation.Calculation;
import conewise.station.calculation.Entry;
import conewise.station.calculation.Worked;
import conewise.station.calculation.WorkedJson;
import conewise.station.calculation.WorkedText;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;

/** One calculation as a command; its options are what the calculation is asked with. */
final class CalculationCommand implements Callable<Integer> {
  private final Calculation calculation;
  private final CommandSpec spec;
  private final AnswerOptions answer = new AnswerOptions();

  private CalculationCommand(Calculation calculation) {
    this.calculation = calculation;
    this.spec = CommandSpec.wrapWithoutInspection(this);
  }

  static CommandSpec specOf(Calculation calculation) {
    return new CalculationCommand(calculation).described();
  }

  private CommandSpec described() {
    spec.name(calculation.name()).mixinStandardHelpOptions(true);
    spec.usageMessage()
        .header(calculation.title() + ".")
        .description(calculation.about().replace("%", "%%"))
        .abbreviateSynopsis(true)
        .footerHeading("%nSources:%n")
        .footer(
            calculation.sources().stream()
                .map(each -> each.replace("%", "%%"))
                .toArray(String[]::new))
        .sortOptions(false);
    for (Entry entry : calculation.entries()) {
      spec.addOption(option(entry));
    }
    spec.addMixin("answer", CommandSpec.forAnnotatedObject(answer));
    return spec;
  }

  /** All as lists, so that what comes twice is told by the calculation. */
  private static OptionSpec option(Entry entry) {
    return OptionSpec.builder("--" + entry.name())
        .type(List.class)
        .auxiliaryTypes(String.class)
        .arity("1")
        .paramLabel(entry.form().placeholder())
        .required(entry.need() == Entry.Need.REQUIRED)
        .description(entry.described().replace("%", "%%") + ".")
        .build();
  }

  @Override
  public Integer call() throws CommandFailure {
    Worked worked = work();
    Screen screen = ((RootCommand) spec.root().userObject()).screen();
    if (answer.json) {
      screen.out().println(WorkedJson.write(calculation, worked));
    } else {
      WorkedText.write(worked).forEach(screen.out()::println);
    }
    return ExitCode.PASS.number();
  }

  private Worked work() throws CommandFailure {
    Map<String, List<String>> texts = new LinkedHashMap<>();
    for (Entry entry : calculation.entries()) {
      List<String> typed = spec.findOption("--" + entry.name()).getValue();
      if (typed != null) {
        texts.put(entry.name(), typed);
      }
    }
    try {
      return calculation.work(texts);
    } catch (BadEntryException bad) {
      throw new CommandFailure(ExitCode.USAGE, bad.getMessage(), bad);
    }
  }
}
