package conewise.station.records;

import conewise.analysis.diagnosis.Candidate;
import conewise.analysis.diagnosis.Loudness;
import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.Wind;
import conewise.analysis.plan.PlannedBox;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.TreeMap;
import java.util.stream.Collectors;

/**
 * What a person saw, felt or heard of a box.
 *
 * @param at when
 * @param by who, where that was said
 * @param kind which test it was
 * @param subject the driver or vent; empty for a remark
 * @param seen what was seen, as {@link Motion}, {@link Wind} or {@link Loudness} name it; empty for
 *     a remark
 * @param toneHz the frequency of the tone that played, where one did
 * @param words the same for people, 1 to 1000 characters
 */
public record Sighting(
    Instant at,
    Optional<String> by,
    Kind kind,
    String subject,
    String seen,
    OptionalDouble toneHz,
    String words) {

  private static final String MICROPHONE = "microphone";
  private static final String PROVEN = "proven";

  /** Which test it was. */
  public enum Kind {
    POP,
    /** Several cones heard by one microphone; its subject is the microphone. */
    HEARD_POPS,
    PORT_WIND,
    LEVEL_WITH_LEADS_SWAPPED,
    /** In a person's own words: kept, and weighed by nobody. */
    REMARK
  }

  public Sighting {
    Words.require("who saw it", by, 80);
    Words.require("what was seen", words, 1000);
    if (kind == Kind.REMARK ? !subject.isEmpty() : subject.isBlank()) {
      throw new IllegalArgumentException(
          "a test names its driver or vent and a remark none; "
              + kind
              + " names \""
              + subject
              + '"');
    }
  }

  /** What was observed, as the diagnosis takes it. */
  public static Sighting of(Instant at, Optional<String> by, Observation observation) {
    String words = observation.words();
    if (observation instanceof Observation.Pop pop) {
      return new Sighting(
          at, by, Kind.POP, pop.driver(), pop.seen().name(), OptionalDouble.empty(), words);
    }
    if (observation instanceof Observation.HeardPops heard) {
      return new Sighting(
          at, by, Kind.HEARD_POPS, MICROPHONE, heard(heard), OptionalDouble.empty(), words);
    }
    if (observation instanceof Observation.PortWind wind) {
      OptionalDouble tone = OptionalDouble.of(wind.toneHz());
      return new Sighting(at, by, Kind.PORT_WIND, wind.vent(), wind.seen().name(), tone, words);
    }
    Observation.LevelWithLeadsSwapped level = (Observation.LevelWithLeadsSwapped) observation;
    return new Sighting(
        at,
        by,
        Kind.LEVEL_WITH_LEADS_SWAPPED,
        level.driver(),
        level.heard().name(),
        OptionalDouble.of(level.toneHz()),
        words);
  }

  /** Like {@code proven left=OUT right=IN}; a driver's name has neither blanks nor equals signs. */
  private static String heard(Observation.HeardPops heard) {
    return (heard.proven() ? PROVEN : "unproven")
        + new TreeMap<>(heard.seen())
            .entrySet().stream()
                .map(each -> " " + each.getKey() + "=" + each.getValue().name())
                .collect(Collectors.joining());
  }

  private Observation heard() {
    String[] parts = seen.split(" ", -1);
    Map<String, Motion> motions = new TreeMap<>();
    for (int i = 1; i < parts.length; i++) {
      String[] pair = parts[i].split("=", 2);
      motions.put(pair[0], Motion.valueOf(pair[1]));
    }
    return new Observation.HeardPops(motions, parts[0].equals(PROVEN));
  }

  /** A remark in a person's own words. */
  public static Sighting remark(Instant at, Optional<String> by, String words) {
    return new Sighting(at, by, Kind.REMARK, "", "", OptionalDouble.empty(), words);
  }

  /**
   * The same for the diagnosis; empty for a remark.
   *
   * @param plan by which the box was set up when it was seen
   */
  public Optional<Observation> observation(PlannedBox plan) {
    return switch (kind) {
      case POP -> Optional.of(new Observation.Pop(subject, Motion.valueOf(seen)));
      case HEARD_POPS -> Optional.of(heard());
      case PORT_WIND ->
          Optional.of(
              new Observation.PortWind(
                  subject,
                  Wind.valueOf(seen),
                  toneHz.orElseThrow(),
                  new Candidate(plan.model(), plan.unknowns())));
      case LEVEL_WITH_LEADS_SWAPPED ->
          Optional.of(
              new Observation.LevelWithLeadsSwapped(
                  subject, Loudness.valueOf(seen), toneHz.orElseThrow()));
      case REMARK -> Optional.empty();
    };
  }
}
