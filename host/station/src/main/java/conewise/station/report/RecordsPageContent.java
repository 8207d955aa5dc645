package conewise.station.report;

import conewise.analysis.judgement.Decision;
import conewise.analysis.outcome.Outcome;
import conewise.station.records.RecordsException;
import conewise.station.records.RunFilter;
import conewise.station.records.RunLine;
import conewise.station.records.store.RecordStore;
import conewise.station.records.trend.ControlChart;
import conewise.station.records.trend.FaultCount;
import conewise.station.records.trend.Untested;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads what stands on the owner's page out of the records. */
public final class RecordsPageContent {
  /** Trends are of the newest so many boxes: more make no picture. */
  private static final int NEWEST = 300;

  /** The figures whose drift an owner asks for: the tuning, and the load. */
  private static final List<String> FIGURES =
      List.of("tuning", "closed-resonance", "dc-resistance", "rated-impedance");

  private static final int MOST_ROWS = 200;

  private RecordsPageContent() {}

  /**
   * Reads it, and which of the boxes that were built never had a run.
   *
   * @param built their serials, within the filter's job; none where that is not asked
   */
  public static RecordsPage.Content read(
      RecordStore store, RunFilter filter, ZoneId zone, List<String> built)
      throws RecordsException {
    RecordsPage.Content content = read(store, filter, zone);
    if (built.isEmpty()) {
      return content;
    }
    String job =
        filter.job().orElseThrow(() -> new IllegalArgumentException("serials are those of a job"));
    return content.with(Untested.of(built, store.serials(job)));
  }

  /**
   * Reads it.
   *
   * @param filter which runs; all of them, or a job's, or a span of time's
   * @param zone of the shop, for its weeks
   */
  public static RecordsPage.Content read(RecordStore store, RunFilter filter, ZoneId zone)
      throws RecordsException {
    Map<String, Outcome<ControlChart>> trends = new LinkedHashMap<>();
    RunFilter passed =
        new RunFilter(
            filter.since(),
            filter.until(),
            filter.job(),
            filter.serial(),
            Optional.of(Decision.PASS),
            NEWEST);
    for (String name : store.figureNames(passed)) {
      if (FIGURES.stream()
          .anyMatch(figure -> name.equals(figure) || name.startsWith(figure + "-"))) {
        trends.put(name, ControlChart.of(store.figures(name, passed), NEWEST));
      }
    }
    List<RunLine> attempts = store.lastOfRetested(filter.atMost(MOST_ROWS));
    List<RunLine> overruled = store.overruled(filter.atMost(MOST_ROWS));
    return new RecordsPage.Content(
        filter.job().map(job -> "Job " + job).orElse("All jobs"),
        store.weeklyYield(filter, zone),
        FaultCount.of(store.suspected(filter), zone),
        trends,
        attempts,
        overruled,
        Optional.empty());
  }
}
