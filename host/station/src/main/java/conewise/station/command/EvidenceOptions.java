package conewise.station.command;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
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
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** What beside the first sweep is known of a box: sweeps in other states, and what was seen. */
final class EvidenceOptions {
  private static final Map<String, Motion> MOTIONS =
      Map.of("out", Motion.OUT, "in", Motion.IN, "hardly", Motion.HARDLY);

  @Mixin private SecondSweepOptions seconds;

  @Option(
      names = "--pop",
      paramLabel = "DRIVER=MOTION",
      description =
          "What a driver's cone did in the pop test, + to +: out, in or hardly; may be repeated.")
  private List<String> pop = List.of();

  /** Reads all of it. */
  BoxJudge.Evidence read(PlannedBox plan, RecordingOptions recording, ProgressLine progress)
      throws CommandFailure, BadFileException {
    List<SweptState> sweeps = new ArrayList<>();
    for (SecondSweepOptions.Named each : seconds.named(plan)) {
      sweeps.add(new SweptState(each.state(), curve(each.file(), recording, progress)));
    }
    List<Observation> seen = new ArrayList<>();
    for (String text : pop) {
      seen.add(pop(plan, text));
    }
    return new BoxJudge.Evidence(sweeps, seen);
  }

  private static Observation pop(PlannedBox plan, String text) throws CommandFailure {
    int sign = text.lastIndexOf('=');
    String driver = sign < 0 ? "" : text.substring(0, sign);
    Motion motion = MOTIONS.get(text.substring(sign + 1));
    List<String> drivers = plan.drivers().stream().map(PlannedBox.PlacedDriver::name).toList();
    if (!drivers.contains(driver) || motion == null) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--pop \""
              + text
              + "\" wants a driver of the plan ("
              + String.join(", ", drivers)
              + "), an equals sign and out, in or hardly; write it like --pop "
              + drivers.get(0)
              + "=out.");
    }
    return new Observation.Pop(driver, motion);
  }

  private static ImpedanceCurve curve(Path file, RecordingOptions recording, ProgressLine progress)
      throws CommandFailure, BadFileException {
    Measurement measurement = recording.read(file, progress);
    if (measurement.curve() instanceof Found<ImpedanceCurve> found) {
      return found.value();
    }
    throw new CommandFailure(
        ExitCode.NOT_JUDGED,
        file + " gives no curve: " + ((NoResult<ImpedanceCurve>) measurement.curve()).because());
  }
}
