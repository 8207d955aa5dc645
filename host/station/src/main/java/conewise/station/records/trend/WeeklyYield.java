package conewise.station.records.trend;

import conewise.analysis.judgement.Decision;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * How many of a week's boxes passed. A box belongs to the week of the first run that judged it; a
 * run that was not judged is the bench's fault and no attempt of the box, so it counts by itself. A
 * verdict that was overruled counts as it was judged.
 *
 * @param week which
 * @param boxes how many were judged for the first time in it
 * @param firstPass of them, how many passed at their first judged run
 * @param finalPass of them, how many passed at their last judged run so far
 * @param retests judged runs of its boxes beyond the first of each
 * @param notJudged runs of this week that came to no judgement
 */
public record WeeklyYield(
    Week week, int boxes, int firstPass, int finalPass, int retests, int notJudged) {

  /** Share that passed at once, 0 to 1; only asked of a week with boxes. */
  public double firstPassShare() {
    return share(firstPass);
  }

  /** Share that passed in the end, 0 to 1; only asked of a week with boxes. */
  public double finalPassShare() {
    return share(finalPass);
  }

  private double share(int count) {
    if (boxes == 0) {
      throw new IllegalStateException("no box was judged in " + week + ", so there is no share");
    }
    return (double) count / boxes;
  }

  /**
   * The yield of each week that has runs, in order.
   *
   * @param attempts in order of job, serial and attempt
   * @param zone of the shop
   */
  public static List<WeeklyYield> of(List<BoxAttempt> attempts, ZoneId zone) {
    Map<Week, int[]> counts = new TreeMap<>();
    countBoxes(counts, attempts, new WeekClock(zone));
    return weeks(counts);
  }

  /**
   * The same without all runs one by one: of boxes that came once it is enough to know how many
   * there were.
   *
   * @param all how all runs of each week came out
   * @param again those of boxes that came more than once, in order of job, serial and attempt
   * @param zone of the shop
   */
  public static List<WeeklyYield> of(List<WeekCount> all, List<BoxAttempt> again, ZoneId zone) {
    Map<Week, int[]> counts = new TreeMap<>();
    WeekClock clock = new WeekClock(zone);
    all.forEach(each -> countOnce(counts, each.week(), each.decision(), each.runs()));
    for (BoxAttempt each : again) {
      countOnce(counts, clock.week(each.finished()), each.decision(), -1);
    }
    countBoxes(counts, again, clock);
    return weeks(counts);
  }

  /** As many boxes with a single run. */
  private static void countOnce(Map<Week, int[]> counts, Week week, Decision decision, int boxes) {
    int[] of = counts.computeIfAbsent(week, other -> new int[5]);
    if (decision == Decision.NOT_JUDGED) {
      of[4] += boxes;
      return;
    }
    of[0] += boxes;
    of[1] += decision == Decision.PASS ? boxes : 0;
    of[2] += decision == Decision.PASS ? boxes : 0;
  }

  private static void countBoxes(
      Map<Week, int[]> counts, List<BoxAttempt> attempts, WeekClock clock) {
    int from = 0;
    for (int i = 1; i <= attempts.size(); i++) {
      if (i == attempts.size() || !isSameBox(attempts.get(from), attempts.get(i))) {
        count(counts, attempts.subList(from, i), clock);
        from = i;
      }
    }
  }

  private static List<WeeklyYield> weeks(Map<Week, int[]> counts) {
    List<WeeklyYield> weeks = new ArrayList<>();
    counts.forEach((week, n) -> weeks.add(new WeeklyYield(week, n[0], n[1], n[2], n[3], n[4])));
    weeks.removeIf(week -> week.boxes() == 0 && week.notJudged() == 0);
    return weeks;
  }

  private static boolean isSameBox(BoxAttempt one, BoxAttempt other) {
    return one.serial().equals(other.serial()) && one.job().equals(other.job());
  }

  private static void count(Map<Week, int[]> counts, List<BoxAttempt> ofBox, WeekClock clock) {
    List<BoxAttempt> judged = new ArrayList<>();
    for (BoxAttempt attempt : ofBox) {
      if (attempt.decision() == Decision.NOT_JUDGED) {
        of(counts, attempt, clock)[4]++;
      } else {
        judged.add(attempt);
      }
    }
    if (!judged.isEmpty()) {
      int[] week = of(counts, judged.get(0), clock);
      week[0]++;
      week[1] += judged.get(0).decision() == Decision.PASS ? 1 : 0;
      week[2] += judged.get(judged.size() - 1).decision() == Decision.PASS ? 1 : 0;
      week[3] += judged.size() - 1;
    }
  }

  private static int[] of(Map<Week, int[]> counts, BoxAttempt attempt, WeekClock clock) {
    return counts.computeIfAbsent(clock.week(attempt.finished()), week -> new int[5]);
  }
}
