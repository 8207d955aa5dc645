package conewise.station.command;

import conewise.analysis.diagnosis.State;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** A box's plan, and its sweeps beside the one as it came. */
final class BoxFitOptions {
  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description = "The file is of a box built by this plan, not of a bare driver.")
  private Optional<Path> plan = Optional.empty();

  @Mixin private SecondSweepOptions seconds;

  Optional<Path> plan() {
    return plan;
  }

  /** True where a second sweep was given. */
  boolean hasSecondSweeps() {
    return seconds.any();
  }

  /** All sweeps, the box as it came first. */
  List<SecondSweepOptions.Named> named(Path asBuilt, PlannedBox box) throws CommandFailure {
    List<SecondSweepOptions.Named> named = new ArrayList<>();
    named.add(new SecondSweepOptions.Named(new State.AsBuilt(), asBuilt));
    named.addAll(seconds.named(box));
    return named;
  }
}
