package conewise.station.desk;

import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.store.RecordStore;
import conewise.station.records.trend.SerialRange;
import conewise.station.report.RecordsPage;
import conewise.station.report.RecordsPageContent;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;

/** The owner's page, as {@code records page} writes it, with its question above it. */
final class OwnerPage {
  private static final String BUILT = "built";

  private final RecordStore store;
  private final ZoneId zone;

  OwnerPage(RecordStore store, ZoneId zone) {
    this.store = store;
    this.zone = zone;
  }

  Reply answer(Asked asked) throws RecordsException {
    Problems problems = new Problems();
    RunFilter filter = ListPage.filter(asked, problems, zone);
    List<String> jobs = store.jobs();
    List<String> built = built(asked, problems);
    if (!built.isEmpty() && filter.job().isEmpty()) {
      problems.add("job", "Say of which job the boxes are that were built.");
    }
    filter
        .job()
        .filter(job -> !jobs.contains(job))
        .ifPresent(job -> problems.add("job", "The records have no job \"" + job + "\"."));
    String content =
        problems.any()
            ? ""
            : RecordsPage.sections(RecordsPageContent.read(store, filter, zone, built));
    String html =
        Frame.around(
            "Owner's page",
            Frame.OWNER,
            "",
            Frame.head("Conewise records", filter.job().map(job -> "Job " + job).orElse("All jobs"))
                + form(asked, problems, jobs)
                + content);
    return problems.any() ? Reply.toMend(html) : Reply.found(html);
  }

  private static List<String> built(Asked asked, Problems problems) {
    List<String> words =
        Arrays.stream(asked.shown(BUILT).split("[\\s,]+")).filter(word -> !word.isEmpty()).toList();
    try {
      return SerialRange.all(words);
    } catch (IllegalArgumentException bad) {
      problems.add(BUILT, Problems.sentence(bad));
      return List.of();
    }
  }

  private static String form(Asked asked, Problems problems, List<String> jobs) {
    return "<form class=\"filters\" action=\""
        + Frame.OWNER
        + "\">\n"
        + ListPage.job(asked, problems, jobs)
        + ListPage.days(asked, problems)
        + Field.of(asked, problems, BUILT, "Boxes that were built, to find those never tested")
            .hinting("C-0001..C-0120, or single serials, with blanks between")
            .line(" maxlength=\"2000\"")
        + "<button>Show</button>\n</form>\n";
  }
}
