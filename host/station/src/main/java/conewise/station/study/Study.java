package conewise.station.study;

import conewise.analysis.diagnosis.Diagnosis;
import conewise.analysis.diagnosis.Fault;
import conewise.analysis.diagnosis.Rates;
import conewise.analysis.judgement.BoxJudge;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.plan.PlannedBox;
import conewise.jig.client.JigClient;
import conewise.jig.sweep.Calibration;
import conewise.jig.sweep.SweepKind;
import conewise.jig.sweep.SweepOutcome;
import conewise.jig.sweep.SweepResult;
import conewise.jig.sweep.SweepSettings;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.world.DemoWorld;
import conewise.simulator.world.World;
import conewise.station.answer.CommandFailure;
import conewise.station.answer.ExitCode;
import conewise.station.answer.ProgressLine;
import conewise.station.answer.Screen;
import conewise.station.calibrating.Calibrating;
import conewise.station.calibrating.VirtualClips;
import conewise.station.files.BadFileException;
import conewise.station.measuring.JigChoice;
import conewise.station.measuring.StopRequest;
import conewise.station.measuring.SweepRun;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;

/** Draws boxes, measures and judges them. Every case follows from the seed and its own number. */
public final class Study {
  private static final double RESISTOR_OHM = 10;
  private static final double RESISTOR_TOLERANCE = 0.001;
  private static final double GOOD_SHARE = 0.4;
  private static final double TWO_FAULTS = 0.1;
  private static final long STRIDE = 0x9E3779B97F4A7C15L;

  private final List<StudyPlan> plans;
  private final long seed;
  private final Rates rates;
  private final SweepSettings settings;
  private final JigImperfections jig;
  private final ProgressLine progress;
  private final StopRequest stop;
  private final Foreseen foreseen;

  Study(List<StudyPlan> plans, long seed, ProgressLine progress, StopRequest stop)
      throws CommandFailure {
    this(plans, seed, Rates.USUAL, progress, stop);
  }

  Study(List<StudyPlan> plans, long seed, Rates rates, ProgressLine progress, StopRequest stop)
      throws CommandFailure {
    this.plans = List.copyOf(plans);
    this.seed = seed;
    this.rates = rates;
    foreseen = new Foreseen(rates);
    this.progress = progress;
    this.stop = stop;
    jig = DemoWorld.HERON.load().jig();
    settings = SweepSettings.standard().with(calibrate());
  }

  /**
   * Runs a study, on all cores.
   *
   * @param rates that the judge takes faults to be met with; drawn are all kinds alike
   */
  public static StudyAnswer of(
      int boxes, long seed, Rates rates, Screen screen, ProgressLine progress, StopRequest stop)
      throws CommandFailure, BadFileException {
    progress.show(0, "calibrating the virtual jig");
    Study study = new Study(StudyPlan.all(), seed, rates, ProgressLine.silent(screen), stop);
    return new StudyAnswer(seed, study.all(boxes, progress));
  }

  /** One case of a study alone. */
  public static StudyAnswer only(
      int number, long seed, Rates rates, Screen screen, StopRequest stop)
      throws CommandFailure, BadFileException {
    Study study = new Study(StudyPlan.all(), seed, rates, ProgressLine.silent(screen), stop);
    return new StudyAnswer(seed, List.of(study.run(number)));
  }

  /** All cases, in the order of their numbers. */
  List<StudyCase> all(int boxes, ProgressLine progress) throws CommandFailure {
    ExecutorService threads =
        Executors.newFixedThreadPool(Runtime.getRuntime().availableProcessors());
    try {
      List<Future<StudyCase>> futures = new ArrayList<>();
      for (int number = 0; number < boxes; number++) {
        int each = number;
        futures.add(threads.submit(() -> run(each)));
      }
      List<StudyCase> cases = new ArrayList<>();
      for (Future<StudyCase> future : futures) {
        progress.show((double) cases.size() / boxes, "box " + cases.size() + " of " + boxes);
        if (stop.asked()) {
          throw new CommandFailure(ExitCode.NOT_JUDGED, "The study was stopped.");
        }
        cases.add(future.get());
      }
      return cases;
    } catch (InterruptedException interrupted) {
      Thread.currentThread().interrupt();
      throw new CommandFailure(ExitCode.NOT_JUDGED, "The study was stopped.", interrupted);
    } catch (ExecutionException failed) {
      throw new CommandFailure(
          ExitCode.UNEXPECTED,
          "A case of the study could not be run: " + failed.getCause().getMessage(),
          failed);
    } finally {
      threads.shutdownNow();
    }
  }

  private Calibration calibrate() throws CommandFailure {
    World world = DemoWorld.HERON.load().with(jig);
    return new Calibrating(
            new VirtualClips(world, RESISTOR_OHM, progress),
            RESISTOR_OHM,
            RESISTOR_TOLERANCE,
            progress,
            stop)
        .withoutListening()
        .run("STUDY");
  }

  /** Draws, measures and judges one box. */
  StudyCase run(int number) throws CommandFailure {
    Random random = new Random(seed + STRIDE * number);
    StudyPlan plan = plans.get(random.nextInt(plans.size()));
    List<Fault> truth = drawFaults(plan, random);
    BuildSheet sheet = new BuildSheet(plan.full(), random);
    for (Fault fault : truth) {
      BuildFault.build(fault, sheet, plan.full(), random);
    }
    World world = DemoWorld.HERON.load().with(jig).with(sheet.box()).withSeed(random.nextLong());
    return judged(number, plan, truth, sheet, measure(world));
  }

  private static List<Fault> drawFaults(StudyPlan plan, Random random) {
    if (random.nextDouble() < GOOD_SHARE) {
      return List.of();
    }
    List<Fault> all = BuildFault.of(plan.given(), Diagnosis.usualFaults(plan.given(), Rates.USUAL));
    List<Fault> drawn = new ArrayList<>(List.of(all.get(random.nextInt(all.size()))));
    if (random.nextDouble() < TWO_FAULTS) {
      List<Fault> others =
          all.stream()
              .filter(
                  other -> java.util.Collections.disjoint(other.touches(), drawn.get(0).touches()))
              .filter(other -> !BuildFault.reverseWhole(plan.given(), other, drawn.get(0)))
              .toList();
      if (!others.isEmpty()) {
        drawn.add(others.get(random.nextInt(others.size())));
      }
    }
    return drawn;
  }

  private Measurement measure(World world) throws CommandFailure {
    try (JigClient client = new JigChoice.Virtual(world).connect(progress)) {
      SweepOutcome outcome =
          new SweepRun(SweepKind.QUICK, settings, Optional.empty()).run(client, progress, stop);
      if (outcome instanceof SweepResult result) {
        return result.measurement();
      }
      throw new CommandFailure(ExitCode.NOT_JUDGED, "A sweep of the virtual jig was interrupted.");
    }
  }

  private StudyCase judged(
      int number, StudyPlan plan, List<Fault> truth, BuildSheet sheet, Measurement measurement) {
    PlannedBox given = plan.given();
    long start = System.nanoTime();
    BoxJudge.Judged judged = new BoxJudge(rates).judged(given, measurement, BoxJudge.Evidence.NONE);
    double seconds = (System.nanoTime() - start) * 1e-9;
    Optional<Diagnosis> diagnosis = judged.diagnosis();
    return new StudyCase(
        number,
        plan.name(),
        truth,
        judged.verdict(),
        diagnosis,
        diagnosis.map(each -> StudyReading.of(sheet, truth, each)).orElse(List.of()),
        foreseen.decidable(plan, truth),
        seconds);
  }
}
