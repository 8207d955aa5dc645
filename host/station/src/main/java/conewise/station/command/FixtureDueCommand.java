package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.answer.TextTable;
import conewise.station.calibrating.CalibrationShelf;
import conewise.station.calibrating.StoredCalibration;
import conewise.station.files.BadFileException;
import conewise.station.selftest.CheckLog;
import conewise.station.selftest.CheckReading;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;

/** {@code fixture due}: when each jig is to be calibrated. */
@Command(
    name = "due",
    mixinStandardHelpOptions = true,
    description = {
      "When each jig's calibration grows stale, and when its check resistor was last read.",
      "Exit code 1 where one is stale or cannot be read."
    })
final class FixtureDueCommand implements Callable<Integer> {
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);

  @ParentCommand private FixtureCommand fixture;

  @Mixin private AnswerOptions answer;

  @Mixin private CalibrationShelfOption place;

  @Option(
      names = "--calibration-days",
      paramLabel = "DAYS",
      description = "Older than this a calibration is stale (default ${DEFAULT-VALUE}).")
  private int days = StoredCalibration.USUAL_DAYS;

  /**
   * A jig.
   *
   * @param left whole days until it is stale; none where it is
   */
  private record Row(
      String jig,
      Optional<StoredCalibration> calibration,
      OptionalLong left,
      Optional<CheckReading> read) {}

  @Override
  public Integer call() throws CommandFailure {
    if (days < 1 || days > 3660) {
      throw new CommandFailure(
          ExitCode.USAGE, "--calibration-days is " + days + "; it must be from 1 to 3660.");
    }
    List<Row> rows = rows(ZonedDateTime.now(ZoneId.systemDefault()));
    if (rows.isEmpty()) {
      throw new CommandFailure(
          ExitCode.BAD_DATA,
          "No jig was calibrated yet in " + place.shelf().folder() + "; use conewise calibrate.");
    }
    ExitCode code =
        rows.stream().allMatch(row -> row.left().isPresent()) ? ExitCode.PASS : ExitCode.FAIL;
    Screen screen = fixture.screen();
    if (answer.json) {
      screen.out().println(json(rows, code));
      return code.number();
    }
    TextTable table = new TextTable("jig", "calibrated", "check resistor", "due");
    for (Row row : rows) {
      table.row(
          row.jig(),
          row.calibration().map(each -> DAY.format(each.taken())).orElse("never"),
          row.read().map(each -> DAY.format(each.taken())).orElse("never"),
          due(row));
    }
    table.lines().forEach(screen.out()::println);
    return code.number();
  }

  private static String due(Row row) {
    return row.left().isPresent()
        ? row.left().getAsLong() == 0
            ? "today"
            : "in " + row.left().getAsLong() + (row.left().getAsLong() == 1 ? " day" : " days")
        : "now: calibrate before the next box";
  }

  private List<Row> rows(ZonedDateTime now) throws CommandFailure {
    List<Row> rows = new ArrayList<>();
    try {
      for (Path folder : place.shelf().jigs()) {
        Optional<StoredCalibration> youngest = CalibrationShelf.youngest(folder);
        List<CheckReading> read = CheckLog.in(folder).read().readings();
        rows.add(
            new Row(
                folder.getFileName().toString().replaceFirst("^jig-", ""),
                youngest,
                youngest.map(each -> each.daysLeft(days, now)).orElse(OptionalLong.empty()),
                read.isEmpty() ? Optional.empty() : Optional.of(read.get(read.size() - 1))));
      }
    } catch (BadFileException bad) {
      throw new CommandFailure(ExitCode.BAD_DATA, bad.getMessage(), bad);
    }
    return rows;
  }

  private static ObjectNode json(List<Row> rows, ExitCode code) {
    ObjectNode json = JsonAnswer.of("fixture due", code);
    ArrayNode jigs = json.putArray("jigs");
    for (Row row : rows) {
      ObjectNode node = jigs.addObject().put("jig", row.jig());
      row.calibration()
          .ifPresent(
              each ->
                  node.put("calibration", each.calibration().id())
                      .put("taken", each.taken().toOffsetDateTime().toString()));
      row.left().ifPresent(left -> node.put("days_left", left));
      row.read()
          .ifPresent(each -> node.put("check_read", each.taken().toOffsetDateTime().toString()));
    }
    return json;
  }
}
