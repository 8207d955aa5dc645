package conewise.station.command;

import conewise.station.answer.ExitCode;
import conewise.station.calculation.Calculation;
import conewise.station.calculation.Calculations;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.IModelTransformer;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code work-out}: the calculations of the bench, each a command of its own below this one. */
@Command(
    name = "work-out",
    mixinStandardHelpOptions = true,
    modelTransformer = WorkOutCommand.WithCalculations.class,
    description = {
      "Works out what the bench asks for: loads, vents, delays, leads (docs/calculations.md).",
      "Figures are written with their unit: 60litres, \"2 cu ft\", 34Hz, 4in, 8ohm, -3dB, 68F."
    })
final class WorkOutCommand implements Callable<Integer> {
  @Spec private CommandSpec spec;

  @Override
  public Integer call() {
    spec.commandLine().usage(spec.commandLine().getOut());
    return ExitCode.USAGE.number();
  }

  /** Adds a command for each calculation. */
  static final class WithCalculations implements IModelTransformer {
    @Override
    public CommandSpec transform(CommandSpec commandSpec) {
      for (Calculation each : Calculations.all()) {
        commandSpec.addSubcommand(each.name(), CalculationCommand.specOf(each));
      }
      return commandSpec;
    }
  }
}
