package conewise.jig.step;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.diagnosis.Motion;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.polarity.ConesOfABox;
import conewise.analysis.polarity.FirstHalfCycle;
import conewise.jig.client.JigClient;
import conewise.jig.client.JigFaultException;
import conewise.jig.workbench.Workbench;
import conewise.simulator.analog.JigImperfections;
import conewise.simulator.analog.Microphone;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Drawn boxes through the whole virtual jig; the truth is how each was wired. */
class HeardPolarityTest {
  private static final long SEED = Long.getLong("conewise.seed", 20261125L);
  private static final int BOXES = Integer.getInteger("conewise.boxes", 24);

  private static final Microphone USUAL =
      new Microphone(0.3, 1).coupledFrom(10).inNoise(0.02, 0.05);

  /** A microphone, and how far from a cone it is held. */
  private record Held(Microphone microphone, double distanceM) {}

  /** How it is held each time. */
  private interface Hand {
    Held hold(SplittableRandom random);
  }

  private static Hand steady(Microphone microphone) {
    return random -> new Held(microphone, 0.02);
  }

  /** Of any usual coupling and gain, in a room of 48 to 74 dB, held 1 to 3 cm away each time. */
  private static Hand careless(SplittableRandom random) {
    Microphone microphone =
        new Microphone(0.3, random.nextDouble(0.5, 2))
            .coupledFrom(random.nextDouble(5, 20))
            .inNoise(random.nextDouble(0.005, 0.05), random.nextDouble(0.005, 0.1));
    return each -> new Held(microphone, each.nextDouble(0.01, 0.03));
  }

  /** What each box is heard with. */
  private interface Kit {
    Hand of(SplittableRandom random);
  }

  private static Outcome<FirstHalfCycle> hear(
      StepBoxes box, String driver, Microphone microphone, long seed) throws JigFaultException {
    return hear(box, driver, new Held(microphone, 0.02), seed);
  }

  private static Outcome<FirstHalfCycle> hear(StepBoxes box, String driver, Held held, long seed)
      throws JigFaultException {
    Workbench bench =
        Workbench.of(box.box())
            .with(box.jig(driver, held.microphone(), held.distanceM()))
            .withSeed(seed);
    try (JigClient client = bench.connect()) {
      return FirstHalfCycle.of(
          new StepDrive(client, (frames, of) -> true).heard().heard().orElseThrow());
    }
  }

  private static Map<String, Outcome<Motion>> hear(StepBoxes box, Microphone microphone, long seed)
      throws JigFaultException {
    return hear(box, steady(microphone), new SplittableRandom(seed), seed);
  }

  private static Map<String, Outcome<Motion>> hear(
      StepBoxes box, Hand hand, SplittableRandom random, long seed) throws JigFaultException {
    Map<String, Outcome<FirstHalfCycle>> heard = new LinkedHashMap<>();
    Map<String, String> kinds = new LinkedHashMap<>();
    for (String driver : box.motions().keySet()) {
      kinds.put(driver, "all");
      heard.put(driver, hear(box, driver, hand.hold(random), seed));
    }
    return ConesOfABox.of(kinds, heard, false);
  }

  private record Count(int right, int none, int cones) {
    @Override
    public String toString() {
      return right + " right, " + none + " without a result, of " + cones + " cones";
    }
  }

  /** Counts, and lets no wrong one through. */
  private static Count count(int boxes, boolean mayBeDead, Kit kit) throws JigFaultException {
    SplittableRandom random = new SplittableRandom(SEED);
    int right = 0;
    int none = 0;
    int cones = 0;
    for (int k = 0; k < boxes; k++) {
      StepBoxes box = StepBoxes.draw(random.split(), mayBeDead);
      Map<String, Outcome<Motion>> told = hear(box, kit.of(random), random, k);
      for (Map.Entry<String, Outcome<Motion>> each : told.entrySet()) {
        String which = "seed " + SEED + ", box " + k + ", " + each + " of " + box.motions();
        cones++;
        if (each.getValue() instanceof Found<Motion> found) {
          assertEquals(expected(box.motions().get(each.getKey())), found.value(), which);
          right++;
        } else {
          assertTrue(((NoResult<Motion>) each.getValue()).because().endsWith("."), which);
          none++;
        }
      }
    }
    return new Count(right, none, cones);
  }

  private static Motion expected(int sign) {
    return sign == 0 ? Motion.HARDLY : sign > 0 ? Motion.OUT : Motion.IN;
  }

  @Test
  void noDrawnBoxIsToldAWrongWayAndNearlyAllAreTold() throws Exception {
    Count count = count(BOXES, true, random -> steady(USUAL));
    System.out.println("seed " + SEED + ", usual room: " + count);
    assertTrue(count.right() >= 0.85 * count.cones(), count::toString);
  }

  @Test
  void carelessHandAndAnyUsualMicrophoneTellNoConeAWrongWay() throws Exception {
    Count count = count(BOXES, true, HeardPolarityTest::careless);
    System.out.println("seed " + SEED + ", careless hand: " + count);
    assertTrue(count.right() >= 0.75 * count.cones(), count::toString);
  }

  @Test
  void noiseTakesResultsAwayAndNeverTurnsThem() throws Exception {
    int before = Integer.MAX_VALUE;
    for (double pascal : new double[] {0.02, 0.2, 1}) {
      Microphone noisy = USUAL.inNoise(pascal / 3, pascal);
      Count count = count(BOXES / 4, false, random -> steady(noisy));
      System.out.println("seed " + SEED + ", " + pascal + " Pa of noise: " + count);
      assertTrue(count.right() <= before, pascal + " Pa: " + count);
      before = count.right();
    }
    assertEquals(0, before, "a pascal of noise, 94 dB, drowns every step");
  }

  @Test
  void backwardMicrophoneReadsEveryConeTheOtherWay() throws Exception {
    StepBoxes box = StepBoxes.apart();
    Map<String, Outcome<Motion>> usual = hear(box, USUAL, 1);
    hear(box, USUAL.withGain(-1), 1)
        .forEach(
            (driver, told) ->
                assertEquals(
                    opposite(((Found<Motion>) usual.get(driver)).value()),
                    ((Found<Motion>) told).value(),
                    driver));
  }

  private static Motion opposite(Motion motion) {
    return motion == Motion.OUT ? Motion.IN : Motion.OUT;
  }

  @Test
  void pulledMicrophoneIsSaidToStandStill() throws Exception {
    StepBoxes box = StepBoxes.apart();
    refused("stands still", hear(box, "d0", USUAL.withGain(0), 1));
  }

  @Test
  void microphoneThatIsLoudAtEveryLevelIsSaidToBeAtItsEnd() throws Exception {
    StepBoxes box = StepBoxes.apart();
    refused("end of its range", hear(box, "d0", USUAL.inNoise(0.001, 0).withGain(50), 1));
  }

  @Test
  void microphoneThatIsLoudAtFullLevelIsHeardAtALowerOne() throws Exception {
    StepBoxes box = StepBoxes.apart();
    Workbench bench = Workbench.of(box.box());
    FirstHalfCycle usual = ((Found<FirstHalfCycle>) hear(box, "d0", USUAL, 1)).value();
    // As loud as full scale and a half: the converter ends at 2 Pa.
    double gain = 3 / Math.abs(usual.pressurePascal());
    try (JigClient client = bench.with(box.jig("d0", USUAL.withGain(gain), 0.02)).connect()) {
      StepRecord record = new StepDrive(client, (frames, of) -> true).heard();
      assertTrue(record.level() < 511, "level " + record.level());
      FirstHalfCycle heard =
          ((Found<FirstHalfCycle>) FirstHalfCycle.of(record.heard().orElseThrow())).value();
      assertEquals(usual.rises(), heard.rises());
    }
  }

  @Test
  void openTerminalsAndShortedOnesAreSaid() throws Exception {
    refused("current", bare(Workbench.open()));
    refused("steps", bare(Workbench.shorted()));
  }

  private static Outcome<FirstHalfCycle> bare(Workbench bench) throws JigFaultException {
    try (JigClient client = bench.with(JigImperfections.nominal().with(USUAL)).connect()) {
      return FirstHalfCycle.of(
          new StepDrive(client, (frames, of) -> true).heard().heard().orElseThrow());
    }
  }

  private static void refused(String word, Outcome<FirstHalfCycle> outcome) {
    assertTrue(
        outcome instanceof NoResult<FirstHalfCycle> none && none.because().contains(word),
        () -> word + ": " + outcome);
  }
}
