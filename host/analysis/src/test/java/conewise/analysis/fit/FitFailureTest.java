package conewise.analysis.fit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.model.Air;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Driver;
import conewise.analysis.model.Inductance;
import conewise.analysis.model.Network;
import conewise.analysis.model.Opening.Leak;
import conewise.analysis.model.Opening.Mounted;
import conewise.analysis.model.Opening.Vent;
import conewise.analysis.model.Quantity;
import conewise.analysis.model.Quantity.Kind;
import conewise.analysis.model.Space;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

/** What a fit does not tell, and fits that cannot be: each is said by name and never a number. */
class FitFailureTest {

  private static Driver driver() {
    return Driver.of(32, 6, 0.45, 0.05, 1, 5).withInductance(Inductance.lossy(0.015, 0.7), 0);
  }

  private static BoxModel vented() {
    return new BoxModel(
        Air.AT_20_CELSIUS,
        List.of(new Space("main", 0.04)),
        List.of(
            new Mounted("a", driver(), "main", Space.OUTSIDE),
            new Vent("vent", 35, 50, "main", Space.OUTSIDE),
            new Leak("leak", 15, "main", Space.OUTSIDE)),
        Circuit.coil("a", 1));
  }

  private static ImpedanceCurve curve(DoubleFunction<Complex> z, double noise, Random random) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double f = 10; f < 400; f *= 1.04) {
      Complex at = z.apply(f);
      double sigma = noise * at.abs();
      points.add(
          new ImpedancePoint(
              f,
              at.getReal() + sigma * random.nextGaussian(),
              at.getImaginary() + sigma * random.nextGaussian(),
              Optional.of(ImpedanceUncertainty.circular(sigma))));
    }
    return new ImpedanceCurve(points);
  }

  private static ImpedanceCurve curveOf(BoxModel box, double noise) {
    return curve(Network.of(box)::impedance, noise, new Random(5));
  }

  private static BoxFit fit(BoxModel model, ImpedanceCurve curve, List<Unknown> unknowns) {
    Outcome<BoxFit> outcome = BoxFit.of(List.of(new Sweep(model, curve)), unknowns);
    assertTrue(outcome instanceof Found<BoxFit>, outcome.toString());
    return ((Found<BoxFit>) outcome).value();
  }

  private static String because(Outcome<?> outcome) {
    assertTrue(outcome instanceof NoResult<?>, outcome.toString());
    return ((NoResult<?>) outcome).because();
  }

  /** Hot coil, bad joint and leads are one resistance at the terminals (common practice). */
  @Test
  void coilAndLeadResistanceAreNamedAsOneSet() {
    BoxModel box =
        BoxModel.freeAir(driver())
            .withCircuit(
                Circuit.series(
                    Circuit.coil("driver", 1),
                    new Circuit.Resistance("leads", 0.3),
                    new Circuit.Resistance("joint", 0.1)));
    // The electrical Q is left to move, as a hot coil leaves the motor as it was.
    List<Unknown> unknowns =
        List.of(
            Unknown.free(new Quantity("driver", Kind.RESONANCE)),
            Unknown.free(new Quantity("driver", Kind.MECHANICAL_Q)),
            Unknown.free(new Quantity("driver", Kind.ELECTRICAL_Q)),
            Unknown.free(new Quantity("driver", Kind.COIL_RESISTANCE)),
            Unknown.free(new Quantity("driver", Kind.LOSSY_INDUCTANCE)),
            Unknown.free(new Quantity("leads", Kind.RESISTANCE)),
            Unknown.free(new Quantity("joint", Kind.RESISTANCE)));
    BoxFit fit = fit(box, curveOf(box, 0.003), unknowns);
    assertEquals(unknowns.size() - 2, fit.rank(), fit.openSets().toString());
    String sets = fit.openSets().toString();
    assertTrue(sets.contains("leads") && sets.contains("joint"), sets);
    String reason = because(fit.estimate(new Quantity("leads", Kind.RESISTANCE)));
    assertTrue(reason.contains("resistance of leads is not told"), reason);
    assertTrue(reason.contains("joint"), reason);
    Outcome<Estimate> sum =
        fit.estimate(
            "all resistance",
            v ->
                v.of(new Quantity("driver", Kind.COIL_RESISTANCE))
                    + v.of(new Quantity("leads", Kind.RESISTANCE))
                    + v.of(new Quantity("joint", Kind.RESISTANCE)));
    assertTrue(sum instanceof Found<Estimate>, sum.toString());
    assertEquals(5.4, ((Found<Estimate>) sum).value().value(), 0.05);
  }

  /** Losses of driver, leak, lining and vent in one open sweep (own computation). */
  @Test
  void lossesAreNamedAsOneSetAndTheirSumIsTold() {
    BoxModel box =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", 0.04).lined(60)),
            vented().openings(),
            vented().circuit());
    List<Unknown> unknowns = new ArrayList<>(UsualUnknowns.of(box));
    BoxFit fit = fit(box, curveOf(box, 0.004), unknowns);
    String sets = fit.openSets().toString();
    assertTrue(sets.contains("vent Q") || sets.contains("absorption Q"), sets);
    assertTrue(fit.rank() < unknowns.size());
  }

  /** Volume and Vas show as their ratio alone: neither may come with a narrow interval. */
  @Test
  void volumeAndVasAreNotToldWhereBothAreFreeButTheirRatioIs() {
    List<Unknown> unknowns = new ArrayList<>();
    for (Unknown usual : UsualUnknowns.of(vented())) {
      boolean vas = usual.moves().get(0).kind() == Kind.EQUIVALENT_VOLUME;
      unknowns.add(vas ? Unknown.free(new Quantity("a", Kind.EQUIVALENT_VOLUME)) : usual);
    }
    Quantity volume = new Quantity("main", Kind.VOLUME);
    unknowns.add(Unknown.free(volume));
    BoxFit fit = fit(vented(), curveOf(vented(), 0.003), unknowns);
    Quantity vas = new Quantity("a", Kind.EQUIVALENT_VOLUME);
    assertTrue(because(fit.estimate(vas)).contains("not told"));
    assertTrue(because(fit.estimate(volume)).contains("not told"));
    Outcome<Estimate> ratio = fit.estimate("alpha", v -> v.of(vas) / v.of(volume));
    assertTrue(ratio instanceof Found<Estimate>, ratio.toString());
    assertEquals(1.25, ((Found<Estimate>) ratio).value().value(), 0.05);
  }

  /** Two drivers, one turned: the second sweep tells them apart. */
  @Test
  void swappingTheLeadsOfOneOfTwoLikeDriversTellsMoreOfEach() {
    Driver other = Driver.of(34, 5.5, 0.47, 0.047, 1, 5.1);
    BoxModel box =
        new BoxModel(
            Air.AT_20_CELSIUS,
            List.of(new Space("main", 0.08)),
            List.of(
                new Mounted("a", Driver.of(32, 6, 0.45, 0.05, 1, 5), "main", Space.OUTSIDE),
                new Mounted("b", other, "main", Space.OUTSIDE)),
            Circuit.parallel(Circuit.coil("a", 1), Circuit.coil("b", 1)));
    BoxModel swapped = box.withCircuit(box.circuit().withReversed("b"));
    List<Unknown> unknowns = UsualUnknowns.of(box);
    ImpedanceCurve first = curveOf(box, 0.003);
    BoxFit one = fit(box, first, unknowns);
    Outcome<BoxFit> both =
        BoxFit.of(
            List.of(new Sweep(box, first), new Sweep(swapped, curveOf(swapped, 0.003))), unknowns);
    assertTrue(both instanceof Found<BoxFit>, both.toString());
    BoxFit fit = ((Found<BoxFit>) both).value();
    assertTrue(fit.rank() > one.rank(), fit.openSets() + " of " + one.openSets());
    assertEquals(32, fit.value(new Quantity("a", Kind.RESONANCE)), 0.5);
    assertEquals(34, fit.value(new Quantity("b", Kind.RESONANCE)), 0.5);
  }

  @Test
  void anUnknownAtItsLimitIsNamed() {
    BoxModel box = vented();
    Quantity tuning = new Quantity("vent", Kind.TUNING);
    List<Unknown> unknowns = new ArrayList<>();
    for (Unknown usual : UsualUnknowns.of(box)) {
      unknowns.add(
          usual.moves().contains(tuning) ? Unknown.free(tuning).between(-0.2, 0.05) : usual);
    }
    BoxModel higher =
        box.without("vent").with(new Vent("vent", 35 * 1.12, 50, "main", Space.OUTSIDE));
    Outcome<BoxFit> outcome = BoxFit.of(List.of(new Sweep(box, curveOf(higher, 0.002))), unknowns);
    String reason =
        outcome instanceof Found<BoxFit> found
            ? because(found.value().estimate(tuning))
            : because(outcome);
    assertTrue(
        reason.contains("limit set for tuning of vent") || reason.contains("leaves"), reason);
  }

  @Test
  void aCurveThatTheBoxCannotHaveIsNoFit() {
    Random random = new Random(8);
    ImpedanceCurve wave =
        curve(f -> new Complex(8 + 5 * Math.sin(f / 3), 4 * Math.cos(f / 2)), 0.003, random);
    Outcome<BoxFit> outcome =
        BoxFit.of(List.of(new Sweep(vented(), wave)), UsualUnknowns.of(vented()));
    assertTrue(because(outcome).matches(".*(leaves|settle|not a box).*"), outcome.toString());
  }

  /** A motor without force fits a resistor, which no planned driver has. */
  @Test
  void aResistorIsNotThePlannedBox() {
    ImpedanceCurve resistor = curve(f -> new Complex(8, 0.01 * f), 0.003, new Random(8));
    Outcome<BoxFit> outcome =
        BoxFit.of(List.of(new Sweep(vented(), resistor)), UsualUnknowns.of(vented()));
    assertTrue(because(outcome).contains("not the planned box"), outcome.toString());
  }

  @Test
  void tooFewPointsAreCounted() {
    ImpedanceCurve one =
        new ImpedanceCurve(List.of(new ImpedancePoint(30, 20, 1, Optional.empty())));
    BoxModel box = BoxModel.freeAir(driver());
    List<Unknown> free = new ArrayList<>();
    for (Kind kind : List.of(Kind.RESONANCE, Kind.MECHANICAL_Q, Kind.ELECTRICAL_Q)) {
      free.add(Unknown.free(new Quantity("driver", kind)));
    }
    String reason = because(BoxFit.of(List.of(new Sweep(box, one)), free));
    assertTrue(reason.contains("too few for 3 unknowns"), reason);
  }

  /** Whatever the curve, a fit answers, and no estimate of it is anything but finite. */
  @Test
  void hostileCurvesNeverThrowAndNeverGiveWhatIsNotANumber() {
    long seed = 4711;
    Random random = new Random(seed);
    for (int i = 0; i < 60; i++) {
      double size = Math.exp(14 * random.nextDouble() - 6);
      double noise = new double[] {0, 1e-6, 0.01, 0.3, 3}[random.nextInt(5)];
      int form = random.nextInt(4);
      ImpedanceCurve curve =
          curve(
              f ->
                  switch (form) {
                    case 0 -> new Complex(size, 0);
                    case 1 -> new Complex(size, size * Math.sin(f));
                    case 2 -> new Complex(-size, f);
                    default -> Network.of(vented()).impedance(f).multiply(size);
                  },
              noise,
              random);
      String where = "seed " + seed + ", curve " + i;
      Outcome<BoxFit> outcome =
          BoxFit.of(List.of(new Sweep(vented(), curve)), UsualUnknowns.of(vented()));
      if (outcome instanceof Found<BoxFit> found) {
        for (Quantity quantity : Network.of(vented()).quantities()) {
          if (found.value().estimate(quantity) instanceof Found<Estimate> estimate) {
            assertTrue(Double.isFinite(estimate.value().interval().low()), where);
            assertTrue(Double.isFinite(estimate.value().interval().high()), where);
          }
        }
      } else {
        assertFalse(because(outcome).isBlank(), where);
      }
    }
  }
}
