package conewise.station.command;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.plan.PlannedBox;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.ShopRule;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.judging.Judging;
import conewise.station.keeping.RunRecord;
import conewise.station.keeping.RunShelf;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.JigLamps;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepFacts;
import conewise.station.measuring.SweepRun;
import conewise.station.planfile.PlannedBoxFile;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code check}: sweeps a box, judges it, keeps everything, then says so. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description = "Sweeps a box, judges it against its plan and keeps the run.",
    footer = "Take the box off every amplifier before it meets the jig.")
final class CheckCommand implements Callable<Integer> {
  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Mixin private JigOptions jig;

  @Mixin private SweepOptions sweep;

  @Mixin private CalibrationOptions calibration;

  @Mixin private ShopRuleOptions shop;

  @Mixin private SteadyFixtureOption steady;

  @Mixin private PopOptions pops;

  @Mixin private RatesOption rates;

  @Mixin private KeepingOptions records;

  @Option(
      names = "--plan",
      required = true,
      paramLabel = "PLAN",
      description = "What it should be.")
  private Path plan;

  @Option(
      names = "--serial",
      required = true,
      paramLabel = "S",
      description = "The box's own number, 1 to 64 characters.")
  private String serial;

  @Option(
      names = "--keep",
      paramLabel = "DIR",
      defaultValue = "conewise-results/runs",
      description = "Where runs are kept (default ${DEFAULT-VALUE}).")
  private Path keep;

  @Override
  public Integer call() throws CommandFailure {
    Screen screen = root.screen();
    PlannedBox box = readPlan();
    requireSerial();
    PopOptions.Seen seen = readPops(box);
    Rates met = rates.read();
    CalibrationOptions.Asked asked = calibration.read();
    ShopRule rule = shop.read();
    JigChoice choice = jig.choice();
    JobCard card;
    Path folder;
    Instant started = Instant.now();
    try (KeepingOptions.Opened kept = records.open(box.name(), plan);
        ProgressLine progress = new ProgressLine(screen);
        StopRequest stop = StopRequest.listen();
        JigClient client = choice.connect(progress)) {
      CalibrationOptions.Chosen chosen =
          asked.on(client.identity(), rule, ZonedDateTime.now(ZoneId.systemDefault()));
      JigLamps lamps = new JigLamps(client);
      lamps.busy();
      SweepOutcome outcome =
          new SweepRun(sweep.kind(), chosen.settings(), Optional.empty())
              .run(client, progress, stop);
      RunRecord record = record(box, client, outcome, chosen, seen, met);
      folder = keep(record, lamps);
      card = append(kept, record, client, chosen, seen, started, lamps);
      lamps.show(card.verdict().decision());
      progress.wipe();
      Answers.show(screen, answer, "check", card, Map.of("run", folder));
    }
    return ExitCode.of(card.verdict().decision()).number();
  }

  private PlannedBox readPlan() throws CommandFailure {
    try {
      return PlannedBoxFile.read(plan);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private PopOptions.Seen readPops(PlannedBox box) throws CommandFailure {
    try {
      return pops.read(box, Optional.of(serial));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private void requireSerial() throws CommandFailure {
    if (serial.isBlank() || serial.length() > RunShelf.SERIAL_MAX) {
      throw new CommandFailure(
          ExitCode.USAGE,
          "--serial has "
              + serial.strip().length()
              + " characters; it must have 1 to "
              + RunShelf.SERIAL_MAX
              + ".");
    }
  }

  private RunRecord record(
      PlannedBox box,
      JigClient client,
      SweepOutcome outcome,
      CalibrationOptions.Chosen chosen,
      PopOptions.Seen seen,
      Rates met) {
    ZonedDateTime now = ZonedDateTime.now(ZoneId.systemDefault());
    String version = RootCommand.Version.text();
    if (outcome instanceof SweepResult result) {
      List<JobCard.Fact> facts =
          new ArrayList<>(SweepFacts.of(result, client.linkName(), chosen.words(), now, version));
      seen.fact().ifPresent(facts::add);
      facts.addAll(rates.facts(met));
      BoxJudge.Evidence more = new BoxJudge.Evidence(List.of(), seen.observations());
      JobCard card =
          new Judging(met).card(box, result.measurement(), more, Optional.of(serial), facts);
      Verdict held =
          steady.rule(calibration.shelf()).hold(client.identity(), chosen.hold(card.verdict()));
      return new RunRecord(card.saying(held), result.captures());
    }
    Interrupted interrupted = (Interrupted) outcome;
    Measurement nothing = SweepRun.nothing(interrupted);
    List<JobCard.Fact> facts =
        SweepFacts.ofNone(client.identity(), client.linkName(), now, version);
    JobCard card = new Judging().card(box, nothing, Optional.of(serial), facts);
    return new RunRecord(card, interrupted.state().captures());
  }

  /** Kept before anything is shown; where that fails, no verdict is shown at all. */
  private Path keep(RunRecord record, JigLamps lamps) throws CommandFailure {
    try {
      return record.keep(new RunShelf(keep), plan);
    } catch (IOException e) {
      lamps.show(Decision.NOT_JUDGED);
      throw Answers.cannotWrite(keep, e);
    }
  }

  /** The same for the records, which count the attempts where they are used. */
  private static JobCard append(
      KeepingOptions.Opened kept,
      RunRecord record,
      JigClient client,
      CalibrationOptions.Chosen chosen,
      PopOptions.Seen seen,
      Instant started,
      JigLamps lamps)
      throws CommandFailure {
    try {
      Optional<String> calibration = chosen.stored().map(each -> each.calibration().id());
      return kept.append(record, client.identity(), calibration, seen.observations(), started);
    } catch (CommandFailure notKept) {
      lamps.show(Decision.NOT_JUDGED);
      throw notKept;
    }
  }
}
