package conewise.station.card;

import conewise.analysis.bench.BenchFinding;
import conewise.analysis.diagnosis.NextTest;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.impedance.ImpedanceUncertainty;
import conewise.analysis.judgement.Check;
import conewise.analysis.judgement.Decision;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.judgement.Verdict;
import conewise.analysis.outcome.Interval;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.plan.PlannedBox;
import conewise.station.files.BadFileException;
import conewise.station.planfile.PlannedBoxFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;

/** Cards written by hand for tests of how they are shown. */
public final class SampleCards {
  private SampleCards() {}

  /** Two parallel resonances over a resistor: the shape of a vented box, exact by its formula. */
  public static ImpedanceCurve vented() {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double hz = 10; hz <= 400; hz *= 1.02) {
      double r = 3.45;
      double x = 0.0012 * hz;
      double[][] resonances = {{20.7, 24.4, 6.0}, {52.4, 21.8, 7.0}};
      for (double[] resonance : resonances) {
        double detune = resonance[2] * (hz / resonance[0] - resonance[0] / hz);
        r += resonance[1] / (1 + detune * detune);
        x -= resonance[1] * detune / (1 + detune * detune);
      }
      double u = 0.004 * Math.hypot(r, x) + 0.01;
      points.add(new ImpedancePoint(hz, r, x, Optional.of(ImpedanceUncertainty.circular(u))));
    }
    return new ImpedanceCurve(points);
  }

  public static PlannedBox plan() {
    try {
      PlannedBox heron = PlannedBoxFile.bundled("heron");
      return new PlannedBox(
          "Heron, two 10 inch",
          heron.kinds(),
          heron.drivers(),
          heron.spaces(),
          heron.vents(),
          heron.radiators(),
          heron.wiring(),
          heron.leadOhm(),
          heron.demands());
    } catch (BadFileException bad) {
      throw new AssertionError(bad);
    }
  }

  public static JobCard passed() {
    return card(
        "C-1047",
        Measurement.of(vented()),
        new Verdict(
            Decision.PASS,
            "This box matches its plan in everything that its terminals can show.",
            Optional.empty(),
            List.of(
                check("dc-resistance", "DC resistance", Decision.PASS, 3.45, 0.04, "ohm", 3.2, 3.8),
                check("peaks", "Peaks", Decision.PASS, 2, 0, "peaks", 2, 2),
                check("tuning", "Vent tuning", Decision.PASS, 34.02, 0.42, "Hz", 32.3, 35.7)),
            List.of(),
            List.of(
                "Whether all drivers are reversed together: a pop test shows it.",
                "A hot coil, a bad joint and a lead look the same: a four-wire meter tells."),
            List.of(uncalibrated()),
            List.of()));
  }

  public static JobCard failed() {
    return card(
        "<script>alert(1)</script> & \"C\"",
        Measurement.of(vented()),
        new Verdict(
            Decision.FAIL,
            "One driver works against the other, or the vent is blocked.",
            Optional.of("Swap the leads of one driver and measure again."),
            List.of(
                check("dc-resistance", "DC resistance", Decision.PASS, 3.45, 0.04, "ohm", 3.2, 3.8),
                check("peaks", "Peaks", Decision.FAIL, 1, 0, "peaks", 2, 2),
                new Check(
                    "tuning",
                    "Vent tuning",
                    Decision.NOT_JUDGED,
                    Outcome.none("one peak gives no tuning"),
                    Optional.of(new Interval(32.3, 35.7)),
                    "Only one peak was found, so there is no tuning to read.",
                    Optional.of("Mend what makes one peak first."))),
            List.of(
                new Verdict.Suspect(
                    List.of("one driver reversed", "drivers out of the box"),
                    "the only peak stands at the drivers' own resonance.",
                    "swap the leads of one driver; a second peak must come.",
                    0.97)),
            List.of("Which of the two drivers is reversed: a pop test shows it."),
            List.of(),
            List.of(
                new NextTest(
                    "Sweep again with the leads of driver left swapped.",
                    2,
                    0.9,
                    List.of(
                        new NextTest.Result(
                            "2 peaks, 27 ohm at 21 Hz and 25 ohm at 52 Hz",
                            "one driver was wired backwards",
                            0.7),
                        new NextTest.Result("no peak", "the <vent> is blocked", 0.3))))));
  }

  public static JobCard notJudged() {
    return card(
        "C-1048",
        new Measurement(
            Outcome.none("the clips touch nothing: the current is below 1 mA at every frequency"),
            List.of()),
        new Verdict(
            Decision.NOT_JUDGED,
            "Nothing is connected to the clips.",
            Optional.of("Clamp both clips on the terminals and measure again."),
            List.of(),
            List.of(),
            List.of(),
            List.of(
                new BenchFinding(
                    BenchFinding.Kind.OPEN_TERMINALS,
                    true,
                    "The current stays below 1 mA.",
                    "Clamp both clips on the terminals.")),
            List.of()));
  }

  /** As much as a card may ever have to say. */
  public static JobCard fullest() {
    String fault = "driver left is wired backwards, and driver right is far from its datasheet";
    String instruction =
        "Pop test, every amplifier disconnected: touch a 1.5 V cell to the terminals for less than"
            + " a second, + to +, and watch each cone.";
    Check open =
        new Check(
            "tuning",
            "Vent tuning",
            Decision.NOT_JUDGED,
            Outcome.none("the sweep does not tell it"),
            Optional.of(new Interval(32.3, 35.7)),
            "No value for the tuning: the tuning of main is not told by the sweep: it can change"
                + " together with equivalent volume of left and right, tuning of port and the"
                + " curve stays.",
            Optional.of("See what the other checks say of the box, mend that and sweep again."));
    Verdict.Suspect suspect =
        new Verdict.Suspect(
            List.of(fault, fault, fault, fault),
            "The curve fits it to 0.51 %, and its probability is 0.2.",
            instruction,
            0.2);
    NextTest.Result result =
        new NextTest.Result("driver left moves in", fault + ", or others", 0.3);
    NextTest test = new NextTest(instruction, 2, 0.9, List.of(result, result, result));
    BenchFinding finding = uncalibrated();
    return card(
        "C-1049-of-a-very-long-number-that-somebody-gave-it",
        Measurement.of(vented()),
        new Verdict(
            Decision.UNDECIDED,
            "Undecided: it may be as planned (0.2), or " + fault + "; or " + fault + ".",
            Optional.of(instruction),
            List.of(
                open,
                open,
                open,
                open,
                open,
                open,
                check("dc-resistance", "DC resistance", Decision.PASS, 3.45, 0.04, "ohm", 3.2, 3.8),
                check("peaks", "Peaks", Decision.PASS, 2, 0, "peaks", 2, 2)),
            List.of(suspect, suspect, suspect, suspect, suspect),
            List.of(instruction, instruction, instruction, instruction, instruction, instruction),
            List.of(finding, finding, finding),
            List.of(test, test, test)));
  }

  private static JobCard card(String serial, Measurement measurement, Verdict verdict) {
    return new JobCard(
        Optional.of(serial),
        OptionalInt.of(2),
        plan(),
        measurement,
        verdict,
        measurement.curve() instanceof Outcome.Found<ImpedanceCurve>
            ? List.of(
                new Mark(Mark.Kind.PEAK, 20.7, 27.9),
                new Mark(Mark.Kind.DIP, 33.1, 4.5),
                new Mark(Mark.Kind.PEAK, 52.4, 25.3))
            : List.of(),
        List.of(
            new JobCard.Fact("Date", "25 November 2026, 09:12 UTC"),
            new JobCard.Fact("Jig", "CW-0007, board atmega328p-5v, firmware 0.1.0"),
            new JobCard.Fact("Calibration", "CAL-20261124"),
            new JobCard.Fact("Sweep", "quick, 10 to 400 Hz, 142 points, 2.6 s"),
            new JobCard.Fact("Versions", "Conewise 0.1.0, protocol 1, plan 1")));
  }

  private static Check check(
      String id,
      String title,
      Decision decision,
      double value,
      double half,
      String unit,
      double low,
      double high) {
    return new Check(
        id,
        title,
        decision,
        Outcome.found(new Check.Reading(value, new Interval(value - half, value + half), unit)),
        Optional.of(new Interval(low, high)),
        decision == Decision.PASS
            ? "The whole interval lies inside the limits."
            : "The whole interval lies outside the limits.",
        Optional.empty());
  }

  private static BenchFinding uncalibrated() {
    return new BenchFinding(
        BenchFinding.Kind.CALIBRATION,
        false,
        "No calibration was used, so the scale rests on the jig's nominal parts.",
        "Calibrate with open, short and a known resistor.");
  }
}
