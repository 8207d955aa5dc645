package conewise.station.calculation;

import conewise.analysis.load.Arrangement;
import conewise.analysis.load.Arrangements;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.planfile.Measure;
import conewise.station.planfile.TypedWiring;
import java.util.ArrayList;
import java.util.List;

/** Ways to join like coils for a wanted load. */
final class CoilsCalculation implements Calculation {
  private static final Entry.Figure OHM = new Entry.Figure(Measure.RESISTANCE, 0.05, 10_000);
  private static final Entry.Whole COUNT = new Entry.Whole(1, Arrangements.MOST_COILS);

  private static final Entry DRIVERS = Entry.required("drivers", "How many like drivers", COUNT);
  private static final Entry COILS =
      Entry.usual("coils", "Voice coils of each driver", new Entry.Whole(1, 4), "1");
  private static final Entry EACH =
      Entry.required("each", "Rated impedance, or DC resistance, of each coil", OHM);
  private static final Entry WANTED = Entry.required("wanted", "The load wanted of them", OHM);
  private static final Entry TOLERANCE =
      Entry.usual("tolerance", "How far off it may be", new Entry.Percent(0, 50), "5 %");

  @Override
  public String name() {
    return "coils";
  }

  @Override
  public String title() {
    return "Coils in series and parallel for a wanted load";
  }

  @Override
  public String about() {
    return "Every way to join all coils of like drivers whose load is near a wanted one, at most 8"
        + " coils; ways that share the power evenly first, the simplest of them at the top.";
  }

  @Override
  public List<String> sources() {
    return List.of(
        "All ways to join like coils in series and parallel, each once: counted by P. A. MacMahon,"
            + " 1892.",
        "Coils are added as resistances: Ohm and Kirchhoff. That rated impedances may be added so"
            + " is common practice.");
  }

  @Override
  public List<Entry> entries() {
    return List.of(DRIVERS, COILS, EACH, WANTED, TOLERANCE);
  }

  @Override
  public Worked work(Given given) throws BadEntryException {
    List<Coil> coils = coils(given.whole(DRIVERS), given.whole(COILS));
    var near =
        Arrangements.near(coils, given.value(EACH), given.value(WANTED), given.fraction(TOLERANCE));
    if (near instanceof NoResult<List<Arrangement>> none) {
      throw new BadEntryException(
          WANTED,
          "With "
              + coils.size()
              + (coils.size() == 1 ? " coil " : " coils ")
              + none.because()
              + "; other coils or another tolerance would do.");
    }
    List<Arrangement> ways = ((Found<List<Arrangement>>) near).value();
    return sheet(ways).done();
  }

  private static List<Coil> coils(int drivers, int each) throws BadEntryException {
    if (drivers * each > Arrangements.MOST_COILS) {
      throw new BadEntryException(
          COILS,
          "drivers and coils make "
              + drivers * each
              + " coils; allowed are at most "
              + Arrangements.MOST_COILS
              + ".");
    }
    List<Coil> coils = new ArrayList<>();
    for (int driver = 1; driver <= drivers; driver++) {
      for (int number = 1; number <= each; number++) {
        coils.add(new Coil("driver " + (char) ('a' + driver - 1), number, false));
      }
    }
    return coils;
  }

  private static Worked.Sheet sheet(List<Arrangement> ways) {
    List<List<Worked.Cell>> cells = new ArrayList<>();
    for (Arrangement way : ways) {
      cells.add(
          List.of(
              new Worked.Value(way.load().ohm()),
              new Worked.Value(Customary.PERCENT * way.load().leastPower()),
              new Worked.Value(Customary.PERCENT * way.load().mostPower()),
              new Worked.Words(TypedWiring.write(way.circuit()))));
    }
    Worked.Sheet sheet =
        new Worked.Sheet()
            .row("ways", "Ways found", ways.size(), "")
            .table(
                List.of(
                    new Worked.Column("load_ohm", "load", "ohm"),
                    new Worked.Column("least_power_percent", "least", "%"),
                    new Worked.Column("most_power_percent", "most", "%"),
                    new Worked.Column("wiring", "wiring, as in a plan", "")),
                cells);
    sheet.remark(
        "Least and most are the parts of the power that a coil has. A box wants ways in which they"
            + " are alike: elsewhere one coil gives up first.");
    return sheet;
  }
}
