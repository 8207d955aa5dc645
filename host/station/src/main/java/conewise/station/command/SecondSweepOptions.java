package conewise.station.command;

import conewise.analysis.diagnosis.State;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import picocli.CommandLine.Option;

/** Sweeps of a box beside the one as it came, each in a state of its own. */
final class SecondSweepOptions {
  @Option(
      names = "--vent-closed",
      paramLabel = "[VENT=]FILE",
      description =
          "The same box with its vent closed tightly; with VENT= where the plan has several.")
  private List<String> ventClosed = List.of();

  @Option(
      names = "--leads-swapped",
      paramLabel = "DRIVER=FILE",
      description = "The same box with the leads of one driver swapped.")
  private List<String> leadsSwapped = List.of();

  @Option(
      names = "--unplugged",
      paramLabel = "DRIVER=FILE",
      description = "The same box with one driver unplugged, its own leads left open.")
  private List<String> unplugged = List.of();

  /** A state and the file of the sweep in it. */
  record Named(State state, Path file) {}

  /** True where one was given. */
  boolean any() {
    return !ventClosed.isEmpty() || !leadsSwapped.isEmpty() || !unplugged.isEmpty();
  }

  /** Each with its state, named after the parts of the plan. */
  List<Named> named(PlannedBox box) throws CommandFailure {
    List<String> vents = box.vents().stream().map(PlannedBox.PlannedVent::name).toList();
    List<String> drivers = box.drivers().stream().map(PlannedBox.PlacedDriver::name).toList();
    List<Named> named = new ArrayList<>();
    for (String text : ventClosed) {
      boolean one = vents.size() == 1 && !text.startsWith(vents.get(0) + "=");
      String whole = one ? vents.get(0) + "=" + text : text;
      named.add(named("--vent-closed", "vent", whole, vents, State.VentClosed::new));
    }
    for (String text : leadsSwapped) {
      named.add(named("--leads-swapped", "driver", text, drivers, State.LeadsSwapped::new));
    }
    for (String text : unplugged) {
      named.add(named("--unplugged", "driver", text, drivers, State.Unplugged::new));
    }
    return named;
  }

  private static Named named(
      String option, String what, String text, List<String> names, Function<String, State> state)
      throws CommandFailure {
    if (names.isEmpty()) {
      throw new CommandFailure(
          ExitCode.USAGE, option + " was given, and the plan has no " + what + "; leave it out.");
    }
    // A name may hold an equals sign: the longest one that fits is meant.
    String name =
        names.stream()
            .filter(each -> text.startsWith(each + "="))
            .max((a, b) -> Integer.compare(a.length(), b.length()))
            .orElseThrow(() -> wrong(option, what, text, names));
    String file = text.substring(name.length() + 1);
    if (file.isBlank()) {
      throw wrong(option, what, text, names);
    }
    try {
      return new Named(state.apply(name), Path.of(file));
    } catch (InvalidPathException nameless) {
      throw new CommandFailure(
          ExitCode.USAGE,
          option + " \"" + text + "\" names no file; check its spelling.",
          nameless);
    }
  }

  private static CommandFailure wrong(String option, String what, String text, List<String> names) {
    return new CommandFailure(
        ExitCode.USAGE,
        option
            + " \""
            + text
            + "\" wants a "
            + what
            + " of the plan ("
            + String.join(", ", names)
            + "), an equals sign and a file; write it like "
            + option
            + " "
            + names.get(0)
            + "=second.csv.");
  }
}
