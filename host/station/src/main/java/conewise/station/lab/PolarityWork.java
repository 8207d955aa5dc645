package conewise.station.lab;

import static conewise.station.lab.Asked.number;
import static conewise.station.lab.Asked.undetermined;
import static conewise.station.lab.Asked.word;
import static conewise.station.lab.DrawnDriver.between;

import conewise.simulator.box.Air;
import conewise.simulator.box.Box;
import conewise.simulator.box.Wiring;
import conewise.station.card.Figures;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;

/** Two like drivers in parallel, in one vented space and in two. */
final class PolarityWork {
  private static final double LEAK_Q = 30;
  private static final double VENT_Q = 60;

  private final SplittableRandom random;
  private final DrawnDriver left;
  private final DrawnDriver right;
  private final double litresEach;
  private final double tuningHz;

  PolarityWork(Student student) {
    random = student.random("polarity");
    left = DrawnDriver.of(random);
    right = like(left);
    litresEach = left.vasLitre() / between(random, 1, 2);
    tuningHz = left.fsHz() * between(random, 0.95, 1.15);
  }

  /** Of one batch: alike to a few per cent. */
  private DrawnDriver like(DrawnDriver one) {
    return new DrawnDriver(
        one.fsHz() * between(random, 0.98, 1.02),
        one.qms() * between(random, 0.95, 1.05),
        one.qes() * between(random, 0.98, 1.02),
        one.vasLitre() * between(random, 0.97, 1.03),
        one.areaCm2(),
        one.ohm() * between(random, 0.99, 1.01),
        one.coil());
  }

  private static Wiring parallel() {
    return Wiring.parallel(Wiring.coil("left", 1), Wiring.coil("right", 1));
  }

  private Box shared() {
    return Box.in(Air.ROOM)
        .space("main", 2 * litresEach)
        .driver("left", left.built(), "main")
        .driver("right", right.built(), "main")
        .vent("vent", "main", tuningHz, VENT_Q)
        .leak("seams", "main", LEAK_Q, tuningHz)
        .wired(parallel());
  }

  private Box separate() {
    return Box.in(Air.ROOM)
        .space("port_side", litresEach)
        .space("far_side", litresEach)
        .driver("left", left.built(), "port_side")
        .driver("right", right.built(), "far_side")
        .vent("vent_a", "port_side", tuningHz, VENT_Q)
        .vent("vent_b", "far_side", tuningHz, VENT_Q)
        .leak("seams_a", "port_side", LEAK_Q, tuningHz)
        .leak("seams_b", "far_side", LEAK_Q, tuningHz)
        .wired(parallel());
  }

  private String plan() {
    String ohm = Figures.plain(Math.rint(left.ohm() * 10) / 10);
    return "plan: 2\nname: Pair of the lab\nbox: vented\ndrivers:\n"
        + "  - {names: [left, right], coils: ["
        + ohm
        + " ohm]}\nwiring: {parallel: [left, right]}\n";
  }

  Assignment polarity() {
    boolean opposed = random.nextInt(5) < 3;
    String wrong = random.nextBoolean() ? "left" : "right";
    boolean separateOpposed = random.nextBoolean();
    Box good = shared();
    Box given = opposed ? good.withDriverReversed(wrong) : good;
    Box apart = separateOpposed ? separate().withDriverReversed("right") : separate();
    int peaks = new TrueCurve(given).peaksHz().size();
    double ohm = left.ohm() * right.ohm() / (left.ohm() + right.ohm());
    return new Assignment(
        Experiment.POLARITY,
        List.of(
            "Two drivers of one batch are in parallel: both plus terminals together, both minus"
                + " terminals together, if it was done right.",
            "The jig's scales are exact and its leads are taken off."),
        List.of(
            new Measured("shared", "both in one vented chamber, as it came", given),
            new Measured(
                "swapped",
                "the same box, the right driver's leads swapped",
                given.withDriverReversed("right")),
            new Measured("separate", "another box: each in a vented chamber of its own", apart)),
        HandTone.LOW,
        Optional.of(plan()),
        questions(opposed, peaks, ohm));
  }

  private List<Question> questions(boolean opposed, int peaks, double ohm) {
    return List.of(
        number("peaks", "How many peaks has shared.csv?", peaks, LabUnit.PURE, 0.01),
        number(
            "re",
            "DC resistance of shared.csv.",
            ohm,
            LabUnit.OHM,
            0.02,
            new Trap(4 * ohm, "that is two coils in series"),
            new Trap(2 * ohm, "that is one coil")),
        word(
            "shared",
            "Do the drivers of shared.csv work together or against each other?",
            List.of("together", "against"),
            opposed ? "against" : "together",
            "In one chamber two drivers against each other move the air between them: one peak,"
                + " near their own resonance, and no dip. The sweep with one driver's leads swapped"
                + " turns one into the other."),
        undetermined(
            "which",
            "Which driver of shared.csv has its leads the wrong way round?",
            List.of("left", "right"),
            "Two like drivers may be exchanged, and both may be turned, without a change at the"
                + " terminals; a dry cell and an eye on each cone tell."),
        undetermined(
            "separate",
            "Do the drivers of separate.csv work together or against each other?",
            List.of("together", "against"),
            "In chambers of their own no driver feels the other: the curve is the same either way;"
                + " a dry cell and an eye on the cones, or the level at a distance, tell."),
        undetermined(
            "absolute",
            "Do the cones of shared.csv go out on a positive voltage?",
            List.of("yes", "no"),
            "Turning all leads changes nothing at the terminals; a dry cell and an eye on the cones"
                + " tell."));
  }
}
