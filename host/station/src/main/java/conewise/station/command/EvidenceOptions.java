package conewise.station.command;

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
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import picocli.CommandLine.Mixin;

/** What beside the first sweep is known of a box: sweeps in other states, and what was seen. */
final class EvidenceOptions {
  @Mixin private SecondSweepOptions seconds;

  @Mixin private PopOptions pops;

  @Mixin private ToneTestOptions tones;

  /** All of it, and how a job card tells of the pop test. */
  record Known(BoxJudge.Evidence evidence, Optional<JobCard.Fact> pop) {}

  /**
   * Reads all of it.
   *
   * @param serial the number of the box that is judged, where known
   */
  Known read(
      PlannedBox plan, Optional<String> serial, RecordingOptions recording, ProgressLine progress)
      throws CommandFailure, BadFileException {
    List<SweptState> sweeps = new ArrayList<>();
    for (SecondSweepOptions.Named each : seconds.named(plan)) {
      sweeps.add(new SweptState(each.state(), curve(each.file(), recording, progress)));
    }
    PopOptions.Seen seen = pops.read(plan, serial);
    List<Observation> observations = new ArrayList<>(seen.observations());
    observations.addAll(tones.read(plan));
    return new Known(new BoxJudge.Evidence(sweeps, observations), seen.fact());
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
