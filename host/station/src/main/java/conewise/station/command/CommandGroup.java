package conewise.station.command;

import conewise.station.answer.ExitCode;
import conewise.station.answer.Screen;
import java.util.concurrent.Callable;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;

/** A command that only has others below it: by itself it says which. */
abstract class CommandGroup implements Callable<Integer> {
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
