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

/** The experiments with a vented box: one driver, one space, one vent. */
final class VentedWork {
  private final SplittableRandom random;
  private final DrawnDriver driver;
  private final double alpha;
  private final double tuningHz;

  VentedWork(Student student, String purpose) {
    random = student.random(purpose);
    driver = DrawnDriver.of(random);
    alpha = between(random, 1, 2.2);
    tuningHz = driver.fsHz() * between(random, 0.9, 1.15);
  }

  private Box box(double leakQuality, double ventQuality) {
    return Box.in(Air.ROOM)
        .space("main", driver.vasLitre() / alpha)
        .driver("woofer", driver.built(), "main")
        .vent("vent", "main", tuningHz, ventQuality)
        .leak("seams", "main", leakQuality, tuningHz)
        .wired(Wiring.coil("woofer", 1));
  }

  private String plan() {
    return "plan: 2\nname: Box of the lab\nbox: vented\ndrivers:\n  - {name: woofer, coils: ["
        + Figures.plain(Math.rint(driver.ohm() * 10) / 10)
        + " ohm]}\nwiring: woofer\n";
  }

  /** The peaks of the open box and the one of the closed, and what lies between. */
  private record Readings(double lowHz, double highHz, double closedHz, double dipHz, double zero) {
    static Readings of(Box box) {
      TrueCurve open = new TrueCurve(box);
      List<Double> peaks = open.peaksHz();
      double low = peaks.get(0);
      double high = peaks.get(1);
      double closed = new TrueCurve(box.without("vent")).peaksHz().get(0);
      return new Readings(low, high, closed, open.dipHz(low, high), open.phaseZeroHz(low, high));
    }

    /** fB^2 = fL^2 + fH^2 - fC^2 (Small, J. Audio Eng. Soc. 21, 1973). */
    double threeHz() {
      return Math.sqrt(lowHz * lowHz + highHz * highHz - closedHz * closedHz);
    }
  }

  Assignment vented() {
    List<String> fits = List.of("as planned", "too low", "too high");
    String fit = fits.get(random.nextInt(fits.size()));
    double off =
        switch (fit) {
          case "too low" -> between(random, 0.8, 0.88);
          case "too high" -> between(random, 1.12, 1.2);
          default -> between(random, 0.985, 1.015);
        };
    double planned = Math.rint(tuningHz / off * 10) / 10;
    Box box = box(between(random, 20, 40), between(random, 40, 70));
    Readings read = Readings.of(box);
    return new Assignment(
        Experiment.VENTED_BOX,
        List.of(
            "The box was planned to be tuned to " + Figures.plain(planned) + " Hz, 5 % either way.",
            "The jig's scales are exact and its leads are taken off."),
        List.of(
            new Measured("box", "the box as it came", box),
            new Measured("closed", "the same box, its vent closed", box.without("vent"))),
        HandTone.LOW,
        Optional.of(plan()),
        readings(read, planned, fits, fit));
  }

  private List<Question> readings(Readings read, double planned, List<String> fits, String fit) {
    Trap dip = new Trap(read.dipHz(), "that is the dip of the modulus, which the coil draws down");
    Trap zero = new Trap(read.zero(), "that is the zero of the phase, which the coil draws down");
    return List.of(
        number(
            "fl",
            "Frequency of the lower peak.",
            read.lowHz(),
            LabUnit.HERTZ,
            0.02,
            new Trap(read.highHz(), "that is the upper peak")),
        number(
            "fh",
            "Frequency of the upper peak.",
            read.highHz(),
            LabUnit.HERTZ,
            0.02,
            new Trap(read.lowHz(), "that is the lower peak"),
            new Trap(read.closedHz(), "that is the peak with the vent closed")),
        number(
            "fc",
            "Frequency of the peak with the vent closed.",
            read.closedHz(),
            LabUnit.HERTZ,
            0.02,
            new Trap(read.highHz(), "that is the upper peak with the vent open")),
        number(
            "dip",
            "First reading of the tuning: the dip of the modulus.",
            read.dipHz(),
            LabUnit.HERTZ,
            0.015),
        number(
            "zero",
            "Second reading: where the phase passes zero between the peaks.",
            read.zero(),
            LabUnit.HERTZ,
            0.015),
        number(
            "three",
            "Third reading: from the three peaks.",
            read.threeHz(),
            LabUnit.HERTZ,
            0.035,
            new Trap(
                Math.sqrt(read.lowHz() * read.highHz()), "that is the middle of the two peaks")),
        number(
            "tuning",
            "The tuning itself, by the fit (fourth reading).",
            tuningHz,
            LabUnit.HERTZ,
            0.015,
            dip,
            zero,
            new Trap(planned, "that is what was planned, not what was measured"),
            new Trap(read.closedHz(), "that is the peak with the vent closed")),
        word(
            "as-planned",
            "Is the tuning as planned?",
            fits,
            fit,
            "The tuning itself is held against the plan and its 5 %; the dip would be held against"
                + " it too low."));
  }

  Assignment losses() {
    boolean leaks = random.nextBoolean();
    double leak = leaks ? between(random, 4, 7) : between(random, 60, 90);
    double vent = leaks ? between(random, 60, 90) : between(random, 5, 8);
    Box box = box(leak, vent);
    TrueCurve open = new TrueCurve(box);
    TrueCurve closed = new TrueCurve(box.without("vent"));
    List<Double> peaks = open.peaksHz();
    double dip = open.dipHz(peaks.get(0), peaks.get(1));
    double closedHz = closed.peaksHz().get(0);
    double ratio = tuningHz / driver.fsHz() / alpha;
    double boxQ = 1 / (1 / leak + 1 / vent);
    double totalQ = boxQ + ratio / driver.qms();
    double overOne = totalQ / (ratio * ratio);
    return new Assignment(
        Experiment.LOSSES,
        List.of(
            "The jig's scales are exact and its leads are taken off.", "The box has no lining."),
        List.of(
            new Measured("box", "the box as it came", box),
            new Measured("closed", "the same box, its vent closed", box.without("vent")),
            new Measured("free", "its driver in free air", Box.freeAir(driver.built()))),
        HandTone.LOW,
        Optional.of(plan()),
        List.of(
            number("dip", "Modulus at the dip.", open.modulusOhm(dip), LabUnit.OHM, 0.03),
            number(
                "closed-peak",
                "Modulus at the peak with the vent closed.",
                closed.modulusOhm(closedHz),
                LabUnit.OHM,
                0.03),
            number(
                "total",
                "Q of all losses together at the tuning, as that of one leak.",
                totalQ,
                LabUnit.PURE,
                0.15,
                new Trap(overOne, "h over alpha was turned over"),
                new Trap(totalQ * driver.qes() / driver.qms(), "Qms was taken for Qes")),
            undetermined(
                "part-open",
                "From box.csv alone: is it a leak or the vent that loses most?",
                List.of("leak", "vent"),
                "At the tuning a leak, the vent's loss, lining and the driver's own loss raise the"
                    + " dip alike; a second sweep with the vent closed tells leak from vent."),
            word(
                "part",
                "From all three sweeps: is it a leak or the vent that loses most?",
                List.of("leak", "vent"),
                leaks ? "leak" : "vent",
                "With the vent closed its loss is gone; the peak is then as high as in free air"
                    + " unless air leaks.")));
  }
}
