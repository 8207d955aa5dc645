package conewise.station.records.trend;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * How often a fault was met.
 *
 * @param fault in words
 * @param boxes how many boxes failed with it; a box that failed with it twice counts once
 * @param share of all that were counted, 0 to 1
 * @param running share of this and all more frequent ones together
 * @param byWeek the same count by the week in which each box failed with it first
 */
public record FaultCount(
    String fault, int boxes, double share, double running, SortedMap<Week, Integer> byWeek) {

  /**
   * All faults, the most frequent first, those of equal count by name (the order of Pareto).
   *
   * @param failed in order of time
   * @param zone of the shop
   */
  public static List<FaultCount> of(List<Suspected> failed, ZoneId zone) {
    Map<String, SortedMap<Week, Integer>> weeks = new HashMap<>();
    Set<List<String>> seen = new HashSet<>();
    for (Suspected each : failed) {
      if (seen.add(List.of(each.job(), each.serial(), each.fault()))) {
        weeks
            .computeIfAbsent(each.fault(), fault -> new TreeMap<>())
            .merge(Week.of(each.finished(), zone), 1, Integer::sum);
      }
    }
    List<String> order = new ArrayList<>(weeks.keySet());
    order.sort(
        Comparator.comparing((String fault) -> -sum(weeks.get(fault)))
            .thenComparing(Comparator.naturalOrder()));
    List<FaultCount> counts = new ArrayList<>();
    int before = 0;
    for (String fault : order) {
      int boxes = sum(weeks.get(fault));
      before += boxes;
      double all = seen.size();
      counts.add(new FaultCount(fault, boxes, boxes / all, before / all, weeks.get(fault)));
    }
    return counts;
  }

  private static int sum(Map<Week, Integer> counts) {
    return counts.values().stream().mapToInt(Integer::intValue).sum();
  }
}
