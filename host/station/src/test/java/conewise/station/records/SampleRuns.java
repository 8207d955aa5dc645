package conewise.station.records;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.diagnosis.Observation;
import conewise.analysis.diagnosis.State;
import conewise.analysis.diagnosis.SweptState;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import conewise.station.card.JobCard;
import conewise.station.card.SampleCards;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.Random;

/** Runs for tests of how they are kept. */
public final class SampleRuns {
  public static final Instant MORNING = Instant.parse("2026-11-23T08:00:00Z");
  public static final PlanText PLAN = new PlanText("yaml", "plan: 2\nname: Heron\n");

  private SampleRuns() {}

  public static BoxRun passed(String job, String serial, Instant finished) {
    return run(SampleCards.passed(), job, serial, PLAN, finished);
  }

  public static BoxRun failed(String job, String serial, Instant finished) {
    return run(SampleCards.failed(), job, serial, PLAN, finished);
  }

  public static BoxRun notJudged(String job, String serial, Instant finished) {
    return run(SampleCards.notJudged(), job, serial, PLAN, finished);
  }

  public static BoxRun run(
      JobCard card, String job, String serial, PlanText plan, Instant finished) {
    JobCard own =
        new JobCard(
            Optional.of(serial),
            OptionalInt.empty(),
            card.plan(),
            card.measurement(),
            card.verdict(),
            card.marks(),
            card.facts());
    BoxRun.Bench bench =
        new BoxRun.Bench(
            Optional.of("Ada"),
            "bench 1",
            new JigUsed(
                Optional.of("CW-0007"),
                "atmega328p-5v",
                "0.1.0",
                Optional.of("CAL-1"),
                OptionalDouble.of(21.5)),
            finished.minusSeconds(4),
            finished,
            "0.1.0");
    Sighting pop = Sighting.of(finished, Optional.empty(), new Observation.Pop("left", Motion.OUT));
    return BoxRun.of(own, job, plan, bench, List.of(capture(1)), List.of(pop));
  }

  /** The same run without its raw captures, which are most of it. */
  public static BoxRun withoutCaptures(BoxRun run) {
    return new BoxRun(
        run.token(),
        run.job(),
        run.serial(),
        run.plan(),
        run.operator(),
        run.station(),
        run.jig(),
        run.started(),
        run.finished(),
        run.software(),
        run.measurement(),
        List.of(),
        run.secondSweeps(),
        run.estimates(),
        run.verdict(),
        run.sightings(),
        run.facts());
  }

  /** The same run with a second sweep. */
  public static BoxRun withSecondSweep(BoxRun run) {
    return new BoxRun(
        run.token(),
        run.job(),
        run.serial(),
        run.plan(),
        run.operator(),
        run.station(),
        run.jig(),
        run.started(),
        run.finished(),
        run.software(),
        run.measurement(),
        run.captures(),
        List.of(new SweptState(new State.VentClosed("port"), SampleCards.vented())),
        run.estimates(),
        run.verdict(),
        run.sightings(),
        run.facts());
  }

  /** Noise through a ten-bit converter, one rail unknown. */
  public static Capture capture(long seed) {
    Random random = new Random(seed);
    double[] volt = random.doubles(3000, -400, 400).map(code -> Math.rint(code) * 1.6e-3).toArray();
    double[] ampere = random.doubles(3000, -0.1, 0.1).toArray();
    double infinite = Double.POSITIVE_INFINITY;
    return new Capture(
        new SampledChannel(volt, 0, 1.28e-4, -0.8, infinite),
        new SampledChannel(ampere, 6.4e-5, 1.28e-4, -infinite, infinite));
  }
}
