package conewise.station.desk;

import static conewise.station.report.Html.text;

import conewise.station.calculation.Calculation;
import conewise.station.calculation.Calculations;
import conewise.station.files.BadFileException;
import conewise.station.judging.Backdrops;
import conewise.station.judging.KeptJudging;
import conewise.station.records.KeptRun;
import conewise.station.records.Overruling;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.store.RecordStore;
import conewise.station.report.JobCardPage;
import conewise.station.report.OverrulingHtml;
import java.time.Clock;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Answers requests for the pages of the records and of the calculations. Knows of no server: what
 * stands in an address comes in, a page goes out. May be used by several threads.
 */
public final class Desk {
  /** What begins the path of each page. */
  public static final List<String> PATHS = List.of(Frame.RECORDS, Frame.WORK_OUT);

  private static final int NOT_FOUND = 404;
  private static final int TROUBLE = 500;
  private static final String NUMBER = "[0-9]{1,18}";

  private final Optional<RecordStore> store;
  private final Clock clock;
  private final Backdrops backdrops = new Backdrops();

  /**
   * A desk.
   *
   * @param store the records, which stay the caller's to close; none where there are only
   *     calculations
   * @param clock the wall clock, with the shop's zone
   */
  public Desk(Optional<RecordStore> store, Clock clock) {
    this.store = store;
    this.clock = clock;
  }

  /**
   * The page of an address.
   *
   * @param path such as {@code /records/run/12}
   * @param query what stands behind the question mark, by name
   */
  public Reply page(String path, Map<String, List<String>> query) {
    Asked asked = new Asked(query);
    List<String> steps = steps(path);
    if (steps.get(0).equals("work-out")) {
      return workOut(steps, asked);
    }
    return withRecords(records -> records(records, steps, asked));
  }

  /**
   * Takes a form: a person overrules the verdict of the run that the path names.
   *
   * @param path such as {@code /records/run/12}
   * @param form what was written, by the names of the fields
   */
  public Reply take(String path, Map<String, List<String>> form) {
    List<String> steps = steps(path);
    if (steps.size() != 3 || !steps.get(1).equals("run")) {
      return nothing();
    }
    return withRecords(records -> overrule(records, steps.get(2), new Asked(form)));
  }

  private static List<String> steps(String path) {
    return List.of(path.replaceFirst("^/+", "").split("/+"));
  }

  @FunctionalInterface
  private interface Question {
    Reply of(RecordStore records) throws RecordsException;
  }

  private Reply withRecords(Question question) {
    if (store.isEmpty()) {
      return new Reply.Page(
          NOT_FOUND, Frame.sorry("Records", Frame.RECORDS, "This bench keeps no records."));
    }
    try {
      return question.of(store.get());
    } catch (RecordsException trouble) {
      return new Reply.Page(TROUBLE, Frame.sorry("Records", Frame.RECORDS, trouble.getMessage()));
    }
  }

  private Reply records(RecordStore records, List<String> steps, Asked asked)
      throws RecordsException {
    String what = steps.size() > 1 ? steps.get(1) : "";
    if (steps.size() > 2 && what.equals("run")) {
      return run(records, steps);
    }
    if (steps.size() > 2) {
      return nothing();
    }
    return switch (what) {
      case "" -> new ListPage(records, clock.getZone()).answer(asked);
      case "owner" -> new OwnerPage(records, clock.getZone()).answer(asked);
      case "compare" -> new ComparePage(records).answer(asked);
      default -> nothing();
    };
  }

  private Reply run(RecordStore records, List<String> steps) throws RecordsException {
    Optional<KeptRun> kept = kept(records, steps.get(2));
    if (kept.isEmpty()) {
      return noRun(steps.get(2));
    }
    if (steps.size() == 3) {
      OverruleForm form = new OverruleForm(new Asked(Map.of()), new Problems());
      return Reply.found(shown(records, kept.get(), form));
    }
    return steps.size() == 4 && steps.get(3).equals("card") ? card(kept.get()) : nothing();
  }

  private static Optional<KeptRun> kept(RecordStore records, String number)
      throws RecordsException {
    return number.matches(NUMBER)
        ? records.runWithoutCaptures(Long.parseLong(number))
        : Optional.empty();
  }

  private String shown(RecordStore records, KeptRun kept, OverruleForm form)
      throws RecordsException {
    RunFilter box = RunFilter.ofBox(kept.run().job(), kept.run().serial());
    return new RunPage(kept, backdrops, records.list(box), clock.getZone()).write(form);
  }

  private Reply card(KeptRun kept) {
    try {
      return Reply.found(
          JobCardPage.write(
              backdrops.behind(KeptJudging.card(kept)),
              kept.overrulings().stream().map(OverrulingHtml::words).toList()));
    } catch (BadFileException bad) {
      return new Reply.Page(TROUBLE, Frame.sorry("Job card", Frame.RECORDS, bad.getMessage()));
    }
  }

  private Reply overrule(RecordStore records, String number, Asked asked) throws RecordsException {
    Optional<KeptRun> kept = kept(records, number);
    if (kept.isEmpty()) {
      return noRun(number);
    }
    OverruleForm form = new OverruleForm(asked, new Problems());
    Optional<Overruling> overruling = form.read(kept.get(), clock.instant());
    if (overruling.isEmpty()) {
      return Reply.toMend(shown(records, kept.get(), form));
    }
    records.overrule(kept.get(), overruling.get());
    return new Reply.Elsewhere(Frame.RUN + number + "#top");
  }

  private static Reply workOut(List<String> steps, Asked asked) {
    if (steps.size() == 1) {
      return Reply.found(calculations());
    }
    return Calculations.all().stream()
        .filter(each -> steps.size() == 2 && each.name().equals(steps.get(1)))
        .findFirst()
        .map(each -> new CalculationPage(each).answer(asked))
        .orElseGet(Desk::nothing);
  }

  private static String calculations() {
    StringBuilder html =
        new StringBuilder(Frame.head("Conewise, worked out at the bench", "Work out"));
    html.append("<ul class=\"jobs\">\n");
    for (Calculation each : Calculations.all()) {
      html.append("<li><a href=\"").append(Frame.WORK_OUT).append('/').append(each.name());
      html.append("\"><b>").append(text(each.title())).append("</b> ");
      html.append(text(each.about())).append("</a></li>\n");
    }
    html.append("</ul>\n<p class=\"hint\">Figures are written with their unit: 60litres, 2 cu ft,");
    html.append(" 34Hz, 4in, 8ohm, -3dB, 68F. Nothing here replaces a measurement.</p>\n");
    return Frame.around("Work out", Frame.WORK_OUT, "", html.toString());
  }

  private static Reply noRun(String number) {
    return new Reply.Page(
        NOT_FOUND,
        Frame.sorry(
            "No such run",
            Frame.RECORDS,
            "There is no run " + number + " in the records; their list has the numbers."));
  }

  private static Reply nothing() {
    return new Reply.Page(
        NOT_FOUND, Frame.sorry("No such page", "", "There is no page of this address."));
  }
}
