package conewise.analysis.vent;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.model.Air;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.analysis.vent.Mouth.Surround;
import java.util.OptionalDouble;
import java.util.Random;
import org.junit.jupiter.api.Test;

class VentShapeTest {
  private static final double LITRE = 1e-3;
  private static final Air AIR = Air.AT_20_CELSIUS;

  private static VentShape round(double diameterM, int count, Surround inner, Surround outer) {
    return VentShape.of(new Section.Round(diameterM), count, Mouth.of(inner), Mouth.of(outer));
  }

  private static double metres(Outcome<Double> length) {
    assertInstanceOf(Found.class, length, length.toString());
    return ((Found<Double>) length).value();
  }

  /**
   * By hand, c = 343.2 m/s, S = pi 0.05^2 = 7.853982e-3 m2, 50 litres, c/(2 pi) = 54.62198: L = 0.2
   * + (0.84883 + 0.6133) 0.05 = 0.2731063 m gives 54.62198 sqrt(0.5751573) = 41.425 Hz; both free,
   * L = 0.26133 m, gives 54.62198 sqrt(0.6010776) = 42.348 Hz.
   */
  @Test
  void tunesByTheLengthWithBothEnds() {
    VentShape flanged = round(0.1, 1, Surround.FREE, Surround.FLANGED);
    VentShape free = round(0.1, 1, Surround.FREE, Surround.FREE);
    assertEquals(41.425, flanged.tuningHz(0.2, 50 * LITRE, AIR), 0.001);
    assertEquals(42.348, free.tuningHz(0.2, 50 * LITRE, AIR), 0.001);
  }

  /**
   * A bottle, as textbooks have it (L. E. Kinsler and others, Fundamentals of Acoustics, from
   * memory): both ends flanged, effective length l + 1.7 a. Neck 1 cm in radius, 5 cm long, 1
   * litre: 54.62198 sqrt(3.141593e-4 / (1e-3 x 0.0669766)) = 118.30 Hz.
   */
  @Test
  void tunesABottleAsTextbooksDo() {
    VentShape neck = round(0.02, 1, Surround.FLANGED, Surround.FLANGED);
    assertEquals(118.30, neck.tuningHz(0.05, LITRE, AIR), 0.01);
  }

  /** Worked with SciPy: 30 x 3 x 28 cm along a wall at both ends, 45 litres, 39.9255 Hz. */
  @Test
  void aWallAlongsideLengthensTheEnds() {
    VentShape slot =
        VentShape.of(
            new Section.Slot(0.3, 0.03),
            1,
            Mouth.of(Surround.FREE).beside(0),
            Mouth.of(Surround.FLANGED).beside(0));
    assertEquals(39.9255, slot.tuningHz(0.28, 45 * LITRE, AIR), 0.0001);
  }

  /** Side by side, masses are halved; common practice. */
  @Test
  void twoLikeVentsTuneRootTwoHigher() {
    VentShape one = round(0.08, 1, Surround.FREE, Surround.FLANGED);
    VentShape two = round(0.08, 2, Surround.FREE, Surround.FLANGED);
    assertEquals(
        Math.sqrt(2) * one.tuningHz(0.2, 60 * LITRE, AIR),
        two.tuningHz(0.2, 60 * LITRE, AIR),
        1e-9);
  }

  /**
   * Two flanged mouths that touch against one and its image in a wall that it touches: the same air
   * by symmetry, so the same length, to what the series of the image is off the point.
   */
  @Test
  void twoVentsSideBySideHaveTheEndsOfOneBesideAMirror() {
    Section section = new Section.Round(0.1);
    Mouth flanged = Mouth.of(Surround.FLANGED);
    VentShape pair = new VentShape(section, 2, flanged, flanged, OptionalDouble.of(0.16));
    VentShape mirrored = VentShape.of(section, 1, flanged.beside(0.03), flanged.beside(0.03));
    assertEquals(mirrored.endsM(), pair.endsM(), 0.01 * pair.endsM());
  }

  /** Three in a row: the middle one has two neighbours at d, the outer ones one at d and at 2 d. */
  @Test
  void threeInARowHaveTheMeanOfTheirNeighbours() {
    Section section = new Section.Round(0.1);
    Mouth flanged = Mouth.of(Surround.FLANGED);
    double alone = VentShape.of(section, 3, flanged, flanged).endsM();
    double row = new VentShape(section, 3, flanged, flanged, OptionalDouble.of(0.2)).endsM();
    double oneAtD = section.areaM2() / (2 * Math.PI * 0.2);
    assertEquals(alone + 2 * (2 + 1.5 + 1.5) / 3 * oneAtD, row, 1e-12);
  }

  @Test
  void lengthAndTuningAreInverse() {
    long seed = Long.getLong("conewise.seed", System.nanoTime());
    System.out.println("lengths and tunings: -Dconewise.seed=" + seed);
    Random random = new Random(seed);
    for (int i = 0; i < 1000; i++) {
      Section section =
          random.nextBoolean()
              ? new Section.Round(0.02 + 0.2 * random.nextDouble())
              : new Section.Slot(0.02 + random.nextDouble(), 0.01 + 0.1 * random.nextDouble());
      Mouth inner = mouth(random);
      Mouth outer = mouth(random);
      VentShape shape = VentShape.of(section, 1 + random.nextInt(4), inner, outer);
      double length = random.nextDouble();
      double volume = Math.exp(-7 + 7 * random.nextDouble());
      Air air = Air.at(-10 + 50 * random.nextDouble());
      double hz = shape.tuningHz(length, volume, air);
      assertEquals(
          length, metres(shape.lengthM(hz, volume, air)), 1e-9, "seed " + seed + ", case " + i);
      // A longer duct, a larger box and colder air all tune lower.
      assertTrue(shape.tuningHz(length + 0.01, volume, air) < hz);
      assertTrue(shape.tuningHz(length, 1.01 * volume, air) < hz);
    }
  }

  private static Mouth mouth(Random random) {
    Mouth mouth = Mouth.of(random.nextBoolean() ? Surround.FREE : Surround.FLANGED);
    return random.nextBoolean() ? mouth : mouth.beside(0.1 * random.nextDouble());
  }

  @Test
  void aTuningThatEvenAHoleIsTooLowForIsRefusedWithWhatTheHoleTunesTo() {
    VentShape shape = round(0.1, 1, Surround.FREE, Surround.FLANGED);
    double most = shape.tuningHz(0, 60 * LITRE, AIR);
    Outcome<Double> none = shape.lengthM(300, 60 * LITRE, AIR);
    String because = ((NoResult<Double>) none).because();
    assertTrue(because.contains("gives 300 Hz") && because.contains("tunes 60 litres"), because);
    assertTrue(because.contains("to " + Math.round(100 * most) / 100.0 + " Hz"), because);
    assertEquals(0, metres(shape.lengthM(most * (1 - 1e-12), 60 * LITRE, AIR)), 1e-9);
  }

  /** An open pipe 1 m long with its ends sounds at c / 2 (any textbook). */
  @Test
  void aDuctRingsByItselfWhereHalfAWaveFits() {
    VentShape shape = round(0.1, 1, Surround.FREE, Surround.FREE);
    assertEquals(171.6, shape.pipeResonanceHz(1 - shape.endsM(), AIR), 1e-9);
  }

  /**
   * 1 litre each way at 30 Hz is 188.5 litres a second at the peak; through 78.54 cm2 that is 24
   * m/s, 7 % of 343.2: more than a twentieth. Small's rule asks for 0.8 x 30 x 0.001 = 240 cm2.
   */
  @Test
  void airThatIsTooFastForAVentIsSaid() {
    VentShape shape = round(0.1, 1, Surround.FREE, Surround.FLANGED);
    VentSpeed speed = shape.speed(30, LITRE, AIR);
    assertEquals(24, speed.peakMPerS(), 0.001);
    assertEquals(24 / 343.2, speed.partOfSound(), 1e-6);
    assertEquals(0.024, speed.leastAreaM2(), 1e-15);
    assertFalse(speed.quiet());
    assertTrue(round(0.2, 1, Surround.FREE, Surround.FLANGED).speed(30, LITRE, AIR).quiet());
  }

  /** Warming from 20 to 30 degrees raises a tuning by sqrt(303.15 / 293.15), 1.7 %. */
  @Test
  void tenKelvinRaiseATuningBySeventeenInAThousand() {
    TuningByAir warm = TuningByAir.of(34, Air.at(20), Air.at(30));
    assertEquals(1.0169, warm.factor(), 5e-5);
    VentShape shape = round(0.1, 1, Surround.FREE, Surround.FLANGED);
    assertEquals(
        warm.factor(),
        shape.tuningHz(0.2, 0.05, Air.at(30)) / shape.tuningHz(0.2, 0.05, Air.at(20)),
        1e-12);
    assertEquals(34, TuningByAir.of(warm.tuningHz(), Air.at(30), Air.at(20)).tuningHz(), 1e-12);
  }

  @Test
  void refusesASizeOfNothing() {
    String message =
        assertThrows(
                IllegalArgumentException.class,
                () -> round(0.1, 1, Surround.FREE, Surround.FLANGED).tuningHz(0.2, 0, AIR))
            .getMessage();
    assertTrue(message.contains("0.0") && message.contains("above 0"), message);
    assertThrows(IllegalArgumentException.class, () -> round(0.1, 0, Surround.FREE, Surround.FREE));
    Mouth free = Mouth.of(Surround.FREE);
    OptionalDouble near = OptionalDouble.of(0.05);
    assertThrows(
        IllegalArgumentException.class,
        () -> new VentShape(new Section.Round(0.1), 2, free, free, near));
  }
}
