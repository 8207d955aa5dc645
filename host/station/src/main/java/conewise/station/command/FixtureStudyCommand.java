package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.analysis.gauge.GaugeStudy;
import conewise.analysis.gauge.Spread;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.plan.PlannedBox;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.card.PlainText;
import conewise.station.files.BadFileException;
import conewise.station.fixture.StudyCell;
import conewise.station.fixture.StudyFigure;
import conewise.station.fixture.StudyPaper;
import conewise.station.fixture.StudyResult;
import conewise.station.planfile.PlannedBoxFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.IntStream;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code fixture study}. */
@Command(
    name = "study",
    mixinStandardHelpOptions = true,
    description = {
      "How much of the spread of readings is the fixture's own: leads several people through"
          + " several boxes, each read several times, and works it out.",
      "Without --operators it only works out what the table holds."
    },
    footer = "Take every box off its amplifier before it meets the jig.")
final class FixtureStudyCommand implements Callable<Integer> {
  private static final int MOST_BOXES = 100;
  private static final int MOST_TRIALS = 20;

  @ParentCommand private FixtureCommand fixture;

  @Mixin private AnswerOptions answer;

  @Mixin private FixtureStudyJig jig;

  @Option(
      names = "--readings",
      required = true,
      paramLabel = "FILE",
      description =
          "The table of readings (.csv: part, operator, a column for each figure). A study that was"
              + " stopped goes on from it.")
  private Path file;

  @Option(
      names = "--plan",
      paramLabel = "PLAN",
      description = "The boxes' plan; its limits are what the fixture is measured against.")
  private Optional<Path> plan = Optional.empty();

  @Option(
      names = "--boxes",
      paramLabel = "N|NAMES",
      defaultValue = "10",
      description = "How many boxes, or their numbers, with commas (default ${DEFAULT-VALUE}).")
  private String boxes;

  @Option(
      names = "--operators",
      paramLabel = "NAMES",
      split = ",",
      description = "Who puts the clips on, with commas; three are usual.")
  private List<String> operators = List.of();

  @Option(
      names = "--trials",
      paramLabel = "N",
      defaultValue = "3",
      description = "How often each reads each box (default ${DEFAULT-VALUE}).")
  private int trials;

  @Option(
      names = "--order",
      paramLabel = "S",
      defaultValue = "1",
      description = "Seed of the order that is drawn (default ${DEFAULT-VALUE}).")
  private long seed;

  @Override
  public Integer call() throws CommandFailure {
    Optional<PlannedBox> box = planned();
    StudyPaper paper = new StudyPaper(file);
    StudyPaper.Content content = read(paper);
    if (!operators.isEmpty()) {
      PlannedBox needed =
          box.orElseThrow(
              () ->
                  new CommandFailure(
                      ExitCode.USAGE, "Give the boxes' plan with --plan to have them read."));
      List<StudyCell> order = StudyCell.drawn(parts(), people(), trials(), seed);
      jig.take(fixture.screen(), paper, content, needed, order);
      content = read(paper);
    }
    return show(results(box, content), content);
  }

  private Optional<PlannedBox> planned() throws CommandFailure {
    try {
      return plan.isEmpty() ? Optional.empty() : Optional.of(PlannedBoxFile.read(plan.get()));
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private static StudyPaper.Content read(StudyPaper paper) throws CommandFailure {
    try {
      return paper.read();
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
  }

  private List<String> parts() throws CommandFailure {
    List<String> names =
        boxes.matches("[0-9]{1,3}")
            ? IntStream.rangeClosed(1, Integer.parseInt(boxes)).mapToObj(String::valueOf).toList()
            : List.of(boxes.split(",", -1));
    if (names.isEmpty() || names.size() > MOST_BOXES) {
      throw new CommandFailure(
          ExitCode.USAGE, "--boxes says " + names.size() + "; it must be 1 to " + MOST_BOXES + ".");
    }
    return named("--boxes", names);
  }

  private List<String> people() throws CommandFailure {
    return named("--operators", operators);
  }

  private static List<String> named(String option, List<String> names) throws CommandFailure {
    List<String> tame = names.stream().map(String::strip).toList();
    if (!tame.stream().allMatch(StudyPaper::isName)
        || tame.stream().distinct().count() < tame.size()) {
      throw new CommandFailure(
          ExitCode.USAGE, option + " must be names of 1 to 40 letters, no two alike.");
    }
    return tame;
  }

  private int trials() throws CommandFailure {
    if (trials < 1 || trials > MOST_TRIALS) {
      throw new CommandFailure(
          ExitCode.USAGE, "--trials is " + trials + "; it must be 1 to " + MOST_TRIALS + ".");
    }
    return trials;
  }

  private static List<StudyResult> results(Optional<PlannedBox> box, StudyPaper.Content content) {
    List<StudyFigure> known = box.map(StudyFigure::of).orElse(List.of());
    List<StudyResult> results = new ArrayList<>();
    for (String column : content.figures()) {
      StudyFigure figure =
          known.stream()
              .filter(each -> each.column().equals(column))
              .findFirst()
              .orElseGet(() -> StudyFigure.named(column));
      results.add(StudyResult.of(figure, content));
    }
    return results;
  }

  private int show(List<StudyResult> results, StudyPaper.Content content) throws CommandFailure {
    if (results.isEmpty()) {
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          "No result, because "
              + file
              + " holds no readings; give --plan and --operators to have boxes read.");
    }
    ExitCode code = exit(results);
    Screen screen = fixture.screen();
    if (answer.json) {
      screen.out().println(json(results, content, code));
      return code.number();
    }
    for (StudyResult result : results) {
      screen.out().println(PlainText.tame(result.figure().title()));
      for (String sentence : result.sentences()) {
        PlainText.wrap(sentence, 78).forEach(line -> screen.out().println("  " + line));
      }
      screen.out().println();
    }
    screen.out().println(content.lines().size() + " readings, kept in " + file);
    return code.number();
  }

  private static ExitCode exit(List<StudyResult> results) {
    List<StudyResult.Word> words = results.stream().map(StudyResult::word).toList();
    return words.contains(StudyResult.Word.UNFIT)
        ? ExitCode.FAIL
        : words.contains(StudyResult.Word.NONE)
            ? ExitCode.NOT_JUDGED
            : words.contains(StudyResult.Word.CONDITIONAL) ? ExitCode.UNDECIDED : ExitCode.PASS;
  }

  private ObjectNode json(List<StudyResult> results, StudyPaper.Content content, ExitCode code) {
    ObjectNode json = JsonAnswer.of("fixture study", code);
    json.put("readings", content.lines().size()).put("file", file.toString());
    ArrayNode figures = json.putArray("figures");
    for (StudyResult result : results) {
      ObjectNode node = figures.addObject();
      StudyFigure figure = result.figure();
      node.put("figure", figure.column()).put("unit", figure.unit());
      node.put("word", result.word().name().toLowerCase(Locale.ROOT));
      figure.toleranceWidth().ifPresent(width -> node.put("tolerance_width", width));
      if (result.study() instanceof NoResult<GaugeStudy> none) {
        node.put("no_result_because", none.because());
      } else if (result.study() instanceof Found<GaugeStudy> found) {
        add(node, found.value(), figure);
      }
      ArrayNode said = node.putArray("sentences");
      result.sentences().forEach(said::add);
    }
    return json;
  }

  private static void add(ObjectNode node, GaugeStudy study, StudyFigure figure) {
    node.put("parts", study.readings().parts().size())
        .put("operators", study.readings().operators().size())
        .put("trials", study.readings().trials());
    add(node.putObject("by_variance"), study.byVariance(), figure);
    add(node.putObject("by_range"), study.byRange(), figure);
    node.set("fixture_interval", JsonAnswer.interval(study.gauge().interval()));
    node.put("chance_of_interaction", study.table().chanceOfInteraction())
        .put("interaction_pooled", study.table().pooled());
  }

  private static void add(ObjectNode node, Spread spread, StudyFigure figure) {
    node.put("repeatability", spread.repeatability())
        .put("reproducibility", spread.reproducibility())
        .put("fixture", spread.gauge())
        .put("boxes", spread.parts())
        .put("share_of_total", spread.shareOfTotal())
        .put("kinds", spread.kinds());
    figure
        .toleranceWidth()
        .ifPresent(width -> node.put("share_of_tolerance", spread.shareOfTolerance(width)));
  }
}
