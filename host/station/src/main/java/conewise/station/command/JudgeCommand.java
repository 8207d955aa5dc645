package conewise.station.command;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.judging.Judging;
import conewise.station.planfile.PlannedBoxFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code judge}: a measurement from a file against a plan. */
@Command(
    name = "judge",
    mixinStandardHelpOptions = true,
    description = "Judges a measurement from a file against a plan.")
final class JudgeCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Parameters(
      paramLabel = "FILE",
      description = "Impedance table (.csv), Touchstone (.s1p) or recording (.csv, .wav).")
  private Path file;

  @Option(
      names = "--plan",
      required = true,
      paramLabel = "PLAN",
      description = "What it should be.")
  private Path plan;

  @Option(names = "--serial", paramLabel = "S", description = "The box's number.")
  private Optional<String> serial = Optional.empty();

  @Option(names = "--report", paramLabel = "FILE", description = "Write the job card as HTML here.")
  private Optional<Path> report = Optional.empty();

  @Mixin private EvidenceOptions evidence;

  @Mixin private RatesOption rates;

  @Mixin private RecordingOptions recording;

  @Override
  public Integer call() throws CommandFailure {
    Screen screen = root.screen();
    JobCard card;
    Rates met = rates.read();
    try (ProgressLine progress = new ProgressLine(screen)) {
      PlannedBox box = PlannedBoxFile.read(plan);
      Measurement measurement = recording.read(file, progress);
      EvidenceOptions.Known more = evidence.read(box, serial, recording, progress);
      progress.show(0.9, "weighing what may be wrong");
      card = new Judging(met).card(box, measurement, more.evidence(), serial, facts(more, met));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    Map<String, Path> places = new LinkedHashMap<>();
    if (report.isPresent()) {
      Answers.writeReport(report.get(), card);
      places.put("report", report.get());
    }
    return Answers.show(screen, answer, "judge", card, places);
  }

  private List<JobCard.Fact> facts(EvidenceOptions.Known more, Rates met) {
    List<JobCard.Fact> facts = new ArrayList<>();
    facts.add(new JobCard.Fact("Measured", "read from " + file));
    more.pop().ifPresent(facts::add);
    facts.add(new JobCard.Fact("Plan", plan.toString()));
    facts.addAll(rates.facts(met));
    facts.add(new JobCard.Fact("Software", "Conewise " + RootCommand.Version.text()));
    return facts;
  }
}
