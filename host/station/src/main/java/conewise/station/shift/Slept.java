package conewise.station.shift;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import java.time.Duration;
import java.util.List;

/**
 * A time in which this computer did nothing: it slept, or stood still. A wall clock that was set on
 * looks the same to a program, and is treated the same.
 *
 * @param length how long it was
 */
public record Slept(Duration length) {
  private static final long MINUTE_SECONDS = 60;

  /** Checks that it was any time at all. */
  public Slept {
    if (length.isNegative() || length.isZero()) {
      throw new IllegalArgumentException("a sleep lasts " + length + "; it must be above 0");
    }
  }

  /** How long, as people say it: {@code 13 h 5 min}, {@code 4 min}, {@code 45 s}. */
  public String words() {
    long seconds = length.toSeconds();
    if (seconds < MINUTE_SECONDS) {
      return seconds + " s";
    }
    long hours = length.toHours();
    int minutes = length.toMinutesPart();
    if (hours == 0) {
      return minutes + " min";
    }
    return hours + " h" + (minutes == 0 ? "" : " " + minutes + " min");
  }

  /** One sentence for people, without what to do. */
  public String sentence() {
    return "The computer slept for " + words() + ", or its clock was set on by as much.";
  }

  /** What a sweep gives through which the computer slept, whatever came of it: nothing. */
  Measurement nothing() {
    String because =
        "The computer slept for "
            + words()
            + ", or its clock was set on by as much, while this box was measured.";
    return new Measurement(
        Outcome.none(because),
        List.of(
            new BenchFinding(
                BenchFinding.Kind.LINK,
                true,
                because,
                "Look at the clips, then measure this box again.")));
  }

  /** This sleep and another right after it, as one. */
  Slept then(Slept next) {
    return new Slept(length.plus(next.length));
  }
}
