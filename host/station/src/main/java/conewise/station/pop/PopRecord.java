package conewise.station.pop;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.outcome.Outcome.Found;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A pop test of one box.
 *
 * @param plan the name of the plan
 * @param serial the box's number, where given
 * @param made when, as ISO 8601
 * @param way how
 * @param microphoneProven whether the microphone, where one was used, had heard a driver rightly
 *     that is known to be right
 * @param readings one a driver, at least one
 */
public record PopRecord(
    String plan,
    Optional<String> serial,
    String made,
    PopWay way,
    boolean microphoneProven,
    List<PopReading> readings) {

  /** Copies the list. */
  public PopRecord {
    readings = List.copyOf(readings);
    if (readings.isEmpty()) {
      throw new IllegalArgumentException("a pop test has at least 1 driver; it had 0");
    }
  }

  /** What a verdict takes: the cones of which something is known. */
  public List<Observation> observations() {
    Map<String, Motion> seen = motions();
    if (seen.isEmpty()) {
      return List.of();
    }
    if (way == PopWay.MICROPHONE) {
      return List.of(new Observation.HeardPops(seen, microphoneProven));
    }
    List<Observation> pops = new ArrayList<>();
    seen.forEach((driver, motion) -> pops.add(new Observation.Pop(driver, motion)));
    return pops;
  }

  /** What each cone did, of those of which something is known. */
  public Map<String, Motion> motions() {
    Map<String, Motion> motions = new LinkedHashMap<>();
    for (PopReading reading : readings) {
      if (reading.seen() instanceof Found<Motion> found) {
        motions.put(reading.driver(), found.value());
      }
    }
    return motions;
  }

  /** In one line, for a job card. */
  public String words() {
    return readings.stream()
            .map(
                each ->
                    each.driver()
                        + " "
                        + (each.seen() instanceof Found<Motion> found
                            ? MotionWords.of(found.value())
                            : "not known"))
            .collect(Collectors.joining(", "))
        + " ("
        + way.word()
        + (way == PopWay.MICROPHONE && !microphoneProven ? " not proved" : "")
        + ", "
        + made
        + ")";
  }
}
