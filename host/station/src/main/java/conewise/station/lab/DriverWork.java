package conewise.station.lab;

import static conewise.station.lab.Asked.number;
import static conewise.station.lab.Asked.undetermined;
import static conewise.station.lab.Asked.word;
import static conewise.station.lab.DrawnDriver.between;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Driver;
import conewise.simulator.box.Wiring;
import conewise.station.card.Figures;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import org.apache.commons.math3.complex.Complex;

/** The experiments with one driver, which is the same for all of them. */
final class DriverWork {
  private static final double COIL_HZ = 200;
  private static final double TURN = 2 * Math.PI;
  private static final String SCALES = "The jig's scales are exact and its leads are taken off.";
  private static final String BARE =
      "The driver hangs in free air of 20 degrees Celsius (density 1.204 kg/m3, sound 343.2 m/s).";

  private final Student student;
  private final DrawnDriver driver;
  private final Driver built;
  private final Measured free;

  DriverWork(Student student) {
    this.student = student;
    driver = DrawnDriver.of(student.random("driver"));
    built = driver.built();
    free = new Measured("free", "the driver in free air", Box.freeAir(built));
  }

  private Assignment assignment(
      Experiment experiment,
      List<String> given,
      List<Measured> measured,
      HandTone tone,
      List<Question> questions) {
    return new Assignment(experiment, given, measured, tone, Optional.empty(), questions);
  }

  private Question resonance() {
    return number("fs", "Resonance in free air.", driver.fsHz(), LabUnit.HERTZ, 0.015);
  }

  private Question resistance() {
    double least = new TrueCurve(free.box()).leastAfterPeakOhm();
    return number(
        "re",
        "DC resistance of the voice coil.",
        driver.ohm(),
        LabUnit.OHM,
        0.02,
        new Trap(
            least, "that is the lowest |Z| above the resonance, which the coil's loss raises"));
  }

  private Question mechanicalQ() {
    double r0 = 1 + driver.qms() / driver.qes();
    // Width at half of Zmax instead of at the root of Zmax Re (see docs/lab).
    double level = r0 / 2;
    double half = Math.sqrt((r0 * r0 - level * level) / (level * level - 1));
    return number(
        "qms",
        "Mechanical Q.",
        driver.qms(),
        LabUnit.PURE,
        0.06,
        new Trap(driver.qts(), "that is the total Q"),
        new Trap(driver.qes(), "that is the electrical Q"),
        new Trap(
            driver.qms() * Math.sqrt(r0) / half,
            "the width was read at half the peak instead of at the root of Zmax times Re"),
        new Trap(
            driver.qms() / Math.sqrt(r0),
            "the root of r0 was left out: Qms = fs sqrt(r0)/(f2-f1)"));
  }

  private Question electricalQ() {
    double r0 = 1 + driver.qms() / driver.qes();
    return number(
        "qes",
        "Electrical Q.",
        driver.qes(),
        LabUnit.PURE,
        0.06,
        new Trap(driver.qms() / r0, "that is the total Q: Qes = Qms/(r0 - 1), Qts = Qms/r0"));
  }

  Assignment freeAir() {
    return assignment(
        Experiment.FREE_AIR,
        List.of(BARE, SCALES),
        List.of(free),
        HandTone.LOW,
        List.of(
            resonance(),
            resistance(),
            mechanicalQ(),
            electricalQ(),
            number(
                "qts",
                "Total Q.",
                driver.qts(),
                LabUnit.PURE,
                0.05,
                new Trap(driver.qes(), "that is the electrical Q alone")),
            undetermined(
                "mms",
                "Moving mass, from this sweep alone.",
                LabUnit.GRAM,
                "Every mass with its own compliance and force factor gives this curve; a second"
                    + " sweep with a known mass on the cone tells."),
            undetermined(
                "polarity",
                "Does a positive voltage at the marked terminal push the cone out?",
                List.of("yes", "no"),
                "Turning the coil's leads over changes neither current nor impedance; a dry cell"
                    + " and an eye on the cone tell.")));
  }

  Assignment addedMass() {
    SplittableRandom random = student.random("added mass");
    double mass = driver.massGram();
    double added = Math.max(1, Math.rint(mass * between(random, 0.6, 1.2)));
    double lowered = driver.fsHz() / Math.sqrt(1 + added / mass);
    Box loaded = Box.freeAir(built.withAddedMass(added / 1e3));
    double force = built.coils().get(0).forceFactorTm();
    double compliance = 1e3 * built.complianceMPerN();
    String put = Figures.plain(added) + " g is stuck evenly about the dust cap.";
    return assignment(
        Experiment.ADDED_MASS,
        List.of(
            BARE,
            SCALES,
            "For the second sweep " + put,
            "The cone's area is " + driver.areaCm2() + " cm2."),
        List.of(
            free, new Measured("mass", "the driver with " + Figures.plain(added) + " g", loaded)),
        HandTone.LOW,
        List.of(
            number(
                "fm",
                "Resonance with the mass on the cone.",
                lowered,
                LabUnit.HERTZ,
                0.015,
                new Trap(driver.fsHz(), "that is the resonance without the mass")),
            number(
                "mms",
                "Moving mass with its air, without what was added.",
                mass,
                LabUnit.GRAM,
                0.06,
                new Trap(mass / 2, "half the added mass was counted"),
                new Trap(mass + added, "the added mass was left in"),
                new Trap(
                    added / (driver.fsHz() / lowered - 1),
                    "the ratio of the frequencies was not squared")),
            number(
                "cms",
                "Compliance of the suspension.",
                compliance,
                LabUnit.COMPLIANCE,
                0.06,
                new Trap(compliance * TURN * TURN, "Hz were taken for rad/s"),
                new Trap(compliance * mass / (mass + added), "the added mass was left in")),
            number(
                "rms",
                "Mechanical loss.",
                built.lossNsPerM(),
                LabUnit.MECHANICAL_LOSS,
                0.1,
                new Trap(
                    built.lossNsPerM() * driver.qms() / driver.qts(), "Qts was taken for Qms")),
            number(
                "bl",
                "Force factor.",
                force,
                LabUnit.FORCE_FACTOR,
                0.05,
                new Trap(force * Math.sqrt(driver.qes() / driver.qms()), "Qms was taken for Qes"),
                new Trap(force * Math.sqrt(driver.qes() / driver.qts()), "Qts was taken for Qes"),
                new Trap(force * force, "that is its square")),
            number(
                "vas",
                "Equivalent volume, through the stated area.",
                driver.vasLitre(),
                LabUnit.LITRE,
                0.07)));
  }

  Assignment closedBox() {
    SplittableRandom random = student.random("closed box");
    double litres = Math.rint(driver.vasLitre() / between(random, 0.9, 2.2));
    double alpha = driver.vasLitre() / litres;
    double closed = driver.fsHz() * Math.sqrt(1 + alpha);
    double electrical = driver.qes() * Math.sqrt(1 + alpha);
    boolean leaky = random.nextInt(2) == 1;
    double leak = leaky ? between(random, 3, 5) : between(random, 80, 120);
    Box box =
        Box.in(Air.ROOM)
            .space("box", litres)
            .driver("driver", built, "box")
            .leak("seam", "box", leak, 50)
            .wired(Wiring.coil("driver", 1));
    return assignment(
        Experiment.CLOSED_BOX,
        List.of(
            BARE,
            SCALES,
            "The test box has no lining; its net volume is " + Figures.plain(litres) + " litres."),
        List.of(free, new Measured("box", "the driver on the closed box", box)),
        HandTone.MIDDLE,
        List.of(
            number(
                "fc",
                "Resonance in the box.",
                closed,
                LabUnit.HERTZ,
                0.02,
                new Trap(driver.fsHz(), "that is the resonance in free air")),
            number(
                "qec",
                "Electrical Q in the box.",
                electrical,
                LabUnit.PURE,
                0.07,
                new Trap(driver.qes(), "that is Qes, of free air"),
                new Trap(
                    electrical * driver.qms() / (driver.qms() + driver.qes()),
                    "that is the total Q of a box without loss")),
            number(
                "vas",
                "Equivalent volume.",
                driver.vasLitre(),
                LabUnit.LITRE,
                0.08,
                new Trap(
                    litres * (closed / driver.fsHz() - 1),
                    "the ratio of the frequencies was not squared"),
                new Trap(litres * (1 + alpha), "1 was not taken off the squared ratio"),
                new Trap(litres / alpha, "the compliance ratio was turned over")),
            word(
                "seam",
                "Is the box tight, or does air leak out?",
                List.of("tight", "leaky"),
                leaky ? "leaky" : "tight",
                "In a tight box without lining the peak is about as high as in free air, since Qms"
                    + " and Qes rise alike; a leak takes some of it."),
            undetermined(
                "where",
                "If it leaks, does it at the driver's rim or at the terminals?",
                List.of("rim", "terminals"),
                "The terminals see how much air passes, not where; a hand or a smoke puff along the"
                    + " seams tells.")));
  }

  Assignment circle() {
    double q = driver.qms();
    double middle = Math.sqrt(1 + 1 / (4 * q * q));
    double below = driver.fsHz() * (middle - 1 / (2 * q));
    double above = driver.fsHz() * (middle + 1 / (2 * q));
    return assignment(
        Experiment.CIRCLE,
        List.of(BARE, SCALES),
        List.of(free),
        HandTone.LOW,
        List.of(
            number(
                "diameter",
                "Diameter of the circle of the motional impedance.",
                driver.motionalOhm(),
                LabUnit.OHM,
                0.03,
                new Trap(
                    driver.motionalOhm() + driver.ohm(), "the coil's DC resistance was left in"),
                new Trap(driver.motionalOhm() / 2, "that is the radius")),
            resonance(),
            number(
                "below",
                "Frequency at which the circle is highest: below the resonance, motional phase 45"
                    + " degrees.",
                below,
                LabUnit.HERTZ,
                0.02,
                new Trap(above, "that is the one above the resonance")),
            number(
                "above",
                "Frequency at which the circle is lowest: above the resonance, motional phase -45"
                    + " degrees.",
                above,
                LabUnit.HERTZ,
                0.02,
                new Trap(below, "that is the one below the resonance")),
            mechanicalQ(),
            undetermined(
                "lead",
                "How much of the resistance at which the circle begins is the lead's?",
                LabUnit.OHM,
                "A resistance in the lead and one in the coil shift the circle alike; a meter at"
                    + " the driver's own terminals tells.")));
  }

  Assignment voiceCoil() {
    SplittableRandom random = student.random("voice coil");
    double added = between(random, 0.06, 0.12) * driver.ohm();
    // Warmth or a bad joint: the same to two terminals, so that it need not be drawn which.
    Box later =
        free.box().withTerminals(Wiring.series(Wiring.ohm(added), Wiring.coil("driver", 1)));
    double[] coil = driver.coilOhm(COIL_HZ);
    double w = TURN * COIL_HZ;
    Complex whole = new TrueCurve(free.box()).at(COIL_HZ);
    double henry = coil[1] / w;
    double size = Math.sqrt(whole.abs() * whole.abs() - driver.ohm() * driver.ohm());
    return assignment(
        Experiment.VOICE_COIL,
        List.of(BARE, SCALES, "The second sweep is of the same driver after an hour of use."),
        List.of(free, new Measured("later", "the same driver an hour later", later)),
        HandTone.HIGH,
        List.of(
            resistance(),
            number(
                "le",
                "Inductance of the coil at 200 Hz, its reactance over 2 pi f.",
                1e3 * henry,
                LabUnit.MILLIHENRY,
                0.06,
                new Trap(
                    1e3 * whole.getImaginary() / w, "the reactance of the moving cone was left in"),
                new Trap(1e3 * size / w, "|Z| and Re were taken for the sides of a right triangle"),
                new Trap(1e3 * coil[1] / COIL_HZ, "the reactance was divided by f, not by 2 pi f")),
            number(
                "loss",
                "Resistance of the coil at 200 Hz above its DC resistance.",
                coil[0],
                LabUnit.OHM,
                0.08,
                new Trap(coil[0] + driver.ohm(), "the DC resistance was left in")),
            number(
                "added",
                "By how much the resistance at DC had risen an hour later.",
                added,
                LabUnit.OHM,
                0.1,
                new Trap(added + driver.ohm(), "that is the whole resistance, not its rise")),
            undetermined(
                "why",
                "Is the coil warm, or has a joint gone bad?",
                List.of("warm", "joint"),
                "Both are a resistance in series with the coil; to wait and sweep again, or a meter"
                    + " across the joint, tells.")));
  }
}
