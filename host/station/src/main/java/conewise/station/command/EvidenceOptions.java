package conewise.station.command;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.files.BadFileException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import picocli.CommandLine.Option;

/** What beside the first sweep is known of a box: sweeps in other states, and what was seen. */
final class EvidenceOptions {
  private static final Map<String, Motion> MOTIONS =
      Map.of("out", Motion.OUT, "in", Motion.IN, "hardly", Motion.HARDLY);

  @Option(
      names = "--vent-closed",
      paramLabel = "VENT=FILE",
      description = "A second sweep of the same box with that vent closed; may be repeated.")
  private List<String> ventClosed = List.of();

  @Option(
      names = "--leads-swapped",
      paramLabel = "DRIVER=FILE",
      description = "The same with one driver's leads swapped; may be repeated.")
  private List<String> leadsSwapped = List.of();

  @Option(
      names = "--unplugged",
      paramLabel = "DRIVER=FILE",
      description = "The same with one driver's leads off, open; may be repeated.")
  private List<String> unplugged = List.of();

  @Option(
      names = "--pop",
      paramLabel = "DRIVER=MOTION",
      description =
          "What a driver's cone did in the pop test, + to +: out, in or hardly; may be repeated.")
  private List<String> pop = List.of();

  /** Reads all of it. */
  BoxJudge.Evidence read(PlannedBox plan, RecordingOptions recording, ProgressLine progress)
      throws CommandFailure, BadFileException {
    List<String> drivers = plan.drivers().stream().map(PlannedBox.PlacedDriver::name).toList();
    List<String> vents = plan.vents().stream().map(PlannedBox.PlannedVent::name).toList();
    List<SweptState> sweeps = new ArrayList<>();
    for (Named each : named("--vent-closed", ventClosed, vents)) {
      sweeps.add(swept(each, State.VentClosed::new, recording, progress));
    }
    for (Named each : named("--leads-swapped", leadsSwapped, drivers)) {
      sweeps.add(swept(each, State.LeadsSwapped::new, recording, progress));
    }
    for (Named each : named("--unplugged", unplugged, drivers)) {
      sweeps.add(swept(each, State.Unplugged::new, recording, progress));
    }
    List<Observation> seen = new ArrayList<>();
    for (Named each : named("--pop", pop, drivers)) {
      Motion motion = MOTIONS.get(each.value());
      if (motion == null) {
        throw new CommandFailure(
            ExitCode.USAGE,
            "--pop " + each.name() + " is \"" + each.value() + "\"; allowed are out, in, hardly.");
      }
      seen.add(new Observation.Pop(each.name(), motion));
    }
    return new BoxJudge.Evidence(sweeps, seen);
  }

  private record Named(String name, String value) {}

  private static List<Named> named(String option, List<String> given, List<String> known)
      throws CommandFailure {
    List<Named> all = new ArrayList<>();
    for (String text : given) {
      int sign = text.indexOf('=');
      String name = sign < 0 ? "" : text.substring(0, sign).strip();
      if (!known.contains(name) || sign == text.length() - 1) {
        throw new CommandFailure(
            ExitCode.USAGE,
            option
                + " \""
                + text
                + "\" must be a name of the plan, an equals sign and a value; names are "
                + (known.isEmpty() ? "none in this plan" : String.join(", ", known))
                + ".");
      }
      all.add(new Named(name, text.substring(sign + 1)));
    }
    return all;
  }

  private static SweptState swept(
      Named named, Function<String, State> state, RecordingOptions recording, ProgressLine progress)
      throws CommandFailure, BadFileException {
    Path file;
    try {
      file = Path.of(named.value());
    } catch (InvalidPathException nameless) {
      throw new CommandFailure(
          ExitCode.USAGE, "\"" + named.value() + "\" names no file.", nameless);
    }
    Measurement measurement = recording.read(file, progress);
    if (measurement.curve() instanceof Found<ImpedanceCurve> found) {
      return new SweptState(state.apply(named.name()), found.value());
    }
    throw new CommandFailure(
        ExitCode.NOT_JUDGED,
        file + " gives no curve: " + ((NoResult<ImpedanceCurve>) measurement.curve()).because());
  }
}
