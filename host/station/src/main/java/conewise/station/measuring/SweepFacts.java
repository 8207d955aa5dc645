package conewise.station.measuring;

import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.jig.sweep.SweepResult;
import conewise.protocol.JigIdentity;
import conewise.station.card.Figures;
import conewise.station.card.JobCard.Fact;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;

/** How a measurement was taken, in lines for the job card. */
public final class SweepFacts {
  private SweepFacts() {}

  /**
   * The lines of a finished sweep.
   *
   * @param result the sweep
   * @param link the name of what the jig is on
   * @param calibration what is to be said of the calibration
   * @param when the time to put on the card
   * @param software the application's version
   */
  public static List<Fact> of(
      SweepResult result, String link, String calibration, ZonedDateTime when, String software) {
    return List.of(
        date(when),
        new Fact("Jig", jig(result.jig(), link)),
        new Fact("Calibration", calibration),
        new Fact("Sweep", sweep(result)),
        new Fact("Software", "Conewise " + software + ", protocol " + JigIdentity.PROTOCOL));
  }

  /** The lines of a sweep that came to no end. */
  public static List<Fact> ofNone(
      JigIdentity jig, String link, ZonedDateTime when, String software) {
    return List.of(
        date(when),
        new Fact("Jig", jig(jig, link)),
        new Fact("Software", "Conewise " + software + ", protocol " + JigIdentity.PROTOCOL));
  }

  private static Fact date(ZonedDateTime when) {
    return new Fact(
        "Date",
        DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm:ss xxx", Locale.ENGLISH).format(when));
  }

  private static String jig(JigIdentity identity, String link) {
    JigIdentity.Jig jig = identity.jig();
    return jig.serial().map(serial -> serial + ", ").orElse("no serial, ")
        + "board "
        + jig.board()
        + ", firmware "
        + jig.firmware()
        + ", on "
        + link;
  }

  private static String sweep(SweepResult result) {
    String kind = result.kind().name().toLowerCase(Locale.ROOT);
    String points =
        result.measurement().curve() instanceof Outcome.Found<ImpedanceCurve> found
            ? ", " + points(found.value())
            : ", no curve";
    return kind
        + points
        + String.format(Locale.ROOT, ", level %d, %.1f s", result.level(), result.jigSeconds());
  }

  private static String points(ImpedanceCurve curve) {
    List<ImpedancePoint> tones =
        curve.points().stream().filter(point -> point.frequencyHz() > 0).toList();
    boolean direct = tones.size() < curve.points().size();
    if (tones.isEmpty()) {
      return "DC alone";
    }
    return Figures.plain(tones.get(0).frequencyHz())
        + " to "
        + Figures.plain(curve.highestHz())
        + " Hz, "
        + tones.size()
        + " points"
        + (direct ? " and DC" : "");
  }
}
