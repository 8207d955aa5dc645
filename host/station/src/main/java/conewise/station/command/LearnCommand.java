package conewise.station.command;

import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.learning.GoodBox;
import conewise.analysis.learning.Lesson;
import conewise.analysis.learning.PlanLearning;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.files.BadFileException;
import conewise.station.files.Existing;
import conewise.station.files.NewFile;
import conewise.station.learning.LessonJson;
import conewise.station.learning.LessonText;
import conewise.station.planfile.PlannedBoxFile;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.ParentCommand;

/** {@code learn}: a plan from good boxes of one design. */
@Command(
    name = "learn",
    mixinStandardHelpOptions = true,
    description = {
      "Learns a plan from the sweeps of at least 5 good boxes of one design: values and tolerances"
          + " from what they have in common, limits from their spread (docs/learning.md).",
      "A box that is probably wrong, or unlike the others, is named and left out."
    })
final class LearnCommand implements Callable<Integer> {
  private static final int MOST_BOXES = 1000;

  @ParentCommand private RootCommand root;

  @Mixin private AnswerOptions answer;

  @Parameters(
      arity = "1..*",
      paramLabel = "FILE",
      description =
          "A sweep of each box as it came: impedance table (.csv), Touchstone (.s1p) or recording"
              + " (.csv, .wav).")
  private List<Path> files = List.of();

  @Option(
      names = "--plan",
      required = true,
      paramLabel = "BASE",
      description = "What the boxes were built by, as far as it is known.")
  private Path plan;

  @Option(
      names = "--out",
      required = true,
      paramLabel = "PLAN",
      description = "Where the learned plan is written (.yaml); a file that is there is kept.")
  private Path out;

  @Mixin private RecordingOptions recording;

  @Override
  public Integer call() throws CommandFailure {
    requireCount();
    requireFree();
    Lesson lesson;
    try (ProgressLine progress = new ProgressLine(root.screen())) {
      PlannedBox base = PlannedBoxFile.read(plan);
      List<GoodBox> boxes = new ArrayList<>();
      for (Path file : files) {
        boxes.add(new GoodBox(file.toString(), MeasuredCurves.read(file, recording, progress)));
      }
      Outcome<Lesson> outcome =
          PlanLearning.of(
              base,
              boxes,
              (name, done) -> progress.show((double) done / boxes.size(), "fitting " + name));
      lesson = found(outcome);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    write(lesson);
    show(lesson);
    return ExitCode.PASS.number();
  }

  private void requireCount() throws CommandFailure {
    if (files.size() < PlanLearning.LEAST_BOXES || files.size() > MOST_BOXES) {
      throw new CommandFailure(
          ExitCode.USAGE,
          files.size()
              + " files were given; a plan is learned from "
              + PlanLearning.LEAST_BOXES
              + " to "
              + MOST_BOXES
              + " boxes, one sweep of each.");
    }
    Set<Path> seen = new HashSet<>();
    for (Path file : files) {
      if (!seen.add(file.toAbsolutePath().normalize())) {
        throw new CommandFailure(
            ExitCode.USAGE,
            file + " is given twice; each box counts once, so give one sweep of each.");
      }
    }
  }

  /** Before anything takes time. */
  private void requireFree() throws CommandFailure {
    if (Files.exists(out)) {
      throw new CommandFailure(
          ExitCode.CANNOT_WRITE,
          out + " exists already and is left as it is; choose another name for the plan.");
    }
  }

  private static Lesson found(Outcome<Lesson> outcome) throws CommandFailure {
    if (outcome instanceof NoResult<Lesson> none) {
      String because = none.because();
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "No plan was learned: " + because + (because.endsWith(".") ? "" : "."));
    }
    return ((Found<Lesson>) outcome).value();
  }

  private void write(Lesson lesson) throws CommandFailure {
    String text;
    try {
      text = LessonText.plan(lesson);
    } catch (IllegalArgumentException absurd) {
      throw new CommandFailure(
          ExitCode.NOT_JUDGED,
          "No plan was learned; what the boxes have in common is beyond what a plan may say: "
              + absurd.getMessage(),
          absurd);
    }
    try {
      NewFile.writeText(out, Existing.REFUSE, text);
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.CANNOT_WRITE, bad.getMessage(), bad);
    }
  }

  private void show(Lesson lesson) {
    Screen screen = root.screen();
    if (answer.json) {
      ObjectNode json = LessonJson.write(lesson);
      json.put("file", out.toString());
      screen.out().println(json);
      return;
    }
    LessonText.lines(lesson).forEach(screen.out()::println);
    screen.out().println();
    screen.out().println("The plan is in " + out);
  }
}
