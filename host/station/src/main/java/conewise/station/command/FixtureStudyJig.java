package conewise.station.command;

import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.Decision;
import conewise.analysis.plan.PlannedBox;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Interrupted;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.ShopRule;
import conewise.station.card.JobCard;
import conewise.station.files.BadFileException;
import conewise.station.fixture.StudyCell;
import conewise.station.fixture.StudyFigure;
import conewise.station.fixture.StudyPaper;
import conewise.station.judging.Judging;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepRun;
import conewise.station.study.GoodBoxes;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import picocli.CommandLine.Mixin;

/** Reads the boxes of a study by the jig, in the order that was drawn, each kept at once. */
final class FixtureStudyJig {
  private static final int TRIES = 3;
  private static final long STRIDE = 0x9E3779B97F4A7C15L;

  @Mixin private JigOptions jig;

  @Mixin private SweepOptions sweep;

  @Mixin private CalibrationOptions calibration;

  /** Puts a box between the clips and meets the jig there. */
  private interface Clipping {
    JigClient clip(StudyCell cell, int done) throws CommandFailure;
  }

  /** Takes what is still missing. */
  void take(
      Screen screen,
      StudyPaper paper,
      StudyPaper.Content content,
      PlannedBox plan,
      List<StudyCell> order)
      throws CommandFailure {
    List<StudyCell> left = StudyCell.remaining(order, content.lines());
    if (left.isEmpty()) {
      return;
    }
    CalibrationOptions.Asked asked = calibration.read();
    List<StudyFigure> figures = StudyFigure.of(plan);
    List<String> columns = figures.stream().map(StudyFigure::column).toList();
    if (!content.figures().isEmpty() && !content.figures().equals(columns)) {
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          paper.file()
              + " has the figures "
              + String.join(", ", content.figures())
              + " and this plan "
              + String.join(", ", columns)
              + "; name another file with --readings.");
    }
    JigChoice choice = jig.choice();
    try (ProgressLine progress = new ProgressLine(screen);
        StopRequest stop = StopRequest.listen()) {
      Clipping clips =
          choice instanceof JigChoice.Virtual virtual
              ? virtual(virtual.world(), plan, progress)
              : person(choice, screen, progress);
      for (StudyCell cell : left) {
        int done = order.size() - left.size() + left.indexOf(cell);
        String where = "reading " + (done + 1) + " of " + order.size();
        progress.show((double) done / order.size(), where);
        Map<String, Double> values =
            values(clips, cell, done, asked, figures, plan, progress, stop);
        keep(paper, new StudyPaper.Line(cell.part(), cell.operator(), values), columns);
      }
      progress.wipe();
    }
  }

  /** Reads a box; a reading that the bench spoils is taken again some times. */
  private Map<String, Double> values(
      Clipping clips,
      StudyCell cell,
      int done,
      CalibrationOptions.Asked asked,
      List<StudyFigure> figures,
      PlannedBox plan,
      ProgressLine progress,
      StopRequest stop)
      throws CommandFailure {
    for (int attempt = 1; ; attempt++) {
      String wrong;
      try (JigClient client = clips.clip(cell, done)) {
        ZonedDateTime now = ZonedDateTime.now(ZoneId.systemDefault());
        SweepOutcome outcome =
            new SweepRun(
                    sweep.kind(),
                    asked.on(client.identity(), ShopRule.none(), now).settings(),
                    Optional.empty())
                .run(client, progress, stop);
        if (outcome instanceof Interrupted broken) {
          throw new CommandFailure(
              ExitCode.NOT_JUDGED,
              broken.because() + " What was read is kept; give the same command to go on.");
        }
        JobCard card =
            new Judging(Rates.USUAL)
                .card(plan, ((SweepResult) outcome).measurement(), Optional.empty(), List.of());
        if (card.verdict().decision() != Decision.NOT_JUDGED) {
          return StudyFigure.read(figures, card);
        }
        wrong = card.verdict().headline();
      }
      if (attempt == TRIES) {
        throw new CommandFailure(
            ExitCode.NOT_JUDGED,
            "Box "
                + cell.part()
                + " was not read in "
                + TRIES
                + " tries. "
                + wrong
                + " What was read is kept; give the same command to go on.");
      }
      progress.wipe();
    }
  }

  private static void keep(StudyPaper paper, StudyPaper.Line line, List<String> columns)
      throws CommandFailure {
    try {
      String now = ZonedDateTime.now(ZoneId.systemDefault()).toOffsetDateTime().toString();
      paper.append(line, now, columns);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private static Clipping person(JigChoice choice, Screen screen, ProgressLine progress) {
    BooleanSupplier enter = Keyboard.enter();
    return (cell, done) -> {
      progress.wipe();
      screen
          .err()
          .println(
              "Operator "
                  + cell.operator()
                  + ": put the clips on box "
                  + cell.part()
                  + ". Then press Enter.");
      if (!enter.getAsBoolean()) {
        throw new CommandFailure(
            ExitCode.NOT_JUDGED,
            "The study was left before its end. What was read is kept; give the same command to go"
                + " on.");
      }
      return choice.connect(progress);
    };
  }

  /** Drawn boxes of the plan on a virtual jig; each reading has noise of its own. */
  private static Clipping virtual(World world, PlannedBox plan, ProgressLine progress) {
    return (cell, done) ->
        new JigChoice.Virtual(
                world
                    .with(GoodBoxes.drawn(plan, world.seed() + STRIDE * cell.part().hashCode()))
                    .withSeed(world.seed() + STRIDE * (done + 1)))
            .connect(progress);
  }
}
