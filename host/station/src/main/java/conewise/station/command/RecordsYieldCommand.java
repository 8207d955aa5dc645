package conewise.station.command;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.JsonAnswer;
import conewise.station.answer.Screen;
import conewise.station.answer.TextTable;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.store.RecordStore;
import conewise.station.records.trend.FaultCount;
import conewise.station.records.trend.WeeklyYield;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.ParentCommand;

/** {@code records yield}. */
@Command(
    name = "yield",
    mixinStandardHelpOptions = true,
    description = "By week: how many boxes passed at once and in the end; and the faults met.")
final class RecordsYieldCommand implements Callable<Integer> {
  @ParentCommand private RecordsCommand records;

  @Mixin private AnswerOptions answer;

  @Mixin private RecordsOptions place;

  @Mixin private RunFilterOptions filter;

  @Override
  public Integer call() throws CommandFailure {
    List<WeeklyYield> weeks;
    List<FaultCount> faults;
    try (RecordStore store = place.open()) {
      RunFilter wanted = filter.filter(RunFilter.MOST);
      ZoneId zone = ZoneId.systemDefault();
      weeks = store.weeklyYield(wanted, zone);
      faults = FaultCount.of(store.suspected(wanted), zone);
    } catch (RecordsException trouble) {
      throw RecordsOptions.failure(trouble);
    }
    Screen screen = records.screen();
    if (answer.json) {
      screen.out().println(json(weeks, faults));
    } else {
      text(weeks).lines().forEach(screen.out()::println);
      screen.out().println();
      faultsText(faults).lines().forEach(screen.out()::println);
    }
    return ExitCode.PASS.number();
  }

  private static TextTable text(List<WeeklyYield> weeks) {
    TextTable table =
        new TextTable("Week", "Boxes", "At once", "In the end", "Retests", "Not judged");
    for (WeeklyYield week : weeks) {
      boolean any = week.boxes() > 0;
      table.row(
          week.week().toString(),
          Integer.toString(week.boxes()),
          any ? percent(week.firstPassShare()) : "none",
          any ? percent(week.finalPassShare()) : "none",
          Integer.toString(week.retests()),
          Integer.toString(week.notJudged()));
    }
    return table;
  }

  private static TextTable faultsText(List<FaultCount> faults) {
    TextTable table = new TextTable("Boxes", "Share", "With those above", "Fault");
    for (FaultCount fault : faults) {
      table.row(
          Integer.toString(fault.boxes()),
          percent(fault.share()),
          percent(fault.running()),
          fault.fault());
    }
    return table;
  }

  private static String percent(double share) {
    return String.format(Locale.ROOT, "%.1f %%", 100 * share);
  }

  private static ObjectNode json(List<WeeklyYield> weeks, List<FaultCount> faults) {
    ObjectNode json = JsonAnswer.of("records yield", ExitCode.PASS);
    ArrayNode list = json.putArray("weeks");
    for (WeeklyYield week : weeks) {
      list.addObject()
          .put("week", week.week().toString())
          .put("boxes", week.boxes())
          .put("first_pass", week.firstPass())
          .put("final_pass", week.finalPass())
          .put("retests", week.retests())
          .put("not_judged", week.notJudged());
    }
    ArrayNode counts = json.putArray("faults");
    for (FaultCount fault : faults) {
      ObjectNode each = counts.addObject();
      each.put("fault", fault.fault()).put("boxes", fault.boxes()).put("share", fault.share());
      ArrayNode byWeek = each.putArray("by_week");
      fault
          .byWeek()
          .forEach(
              (week, boxes) -> byWeek.addObject().put("week", week.toString()).put("boxes", boxes));
    }
    return json;
  }
}
