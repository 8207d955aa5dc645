package conewise.station.calculation;

import conewise.analysis.load.TerminalLoad;
import conewise.analysis.load.TerminalLoad.Share;
import conewise.analysis.model.Circuit;
import conewise.analysis.model.Circuit.Coil;
import conewise.analysis.outcome.Outcome.Found;
import conewise.analysis.outcome.Outcome.NoResult;
import conewise.station.files.Quoted;
import conewise.station.planfile.Measure;
import conewise.station.planfile.TypedWiring;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/** Load and DC resistance of a wiring. */
final class LoadCalculation implements Calculation {
  private static final Entry.Figure OHM = new Entry.Figure(Measure.RESISTANCE, 0.05, 10_000);

  private static final Entry WIRING =
      Entry.required(
          "wiring",
          "How the coils are joined, as in a plan:"
              + " \"parallel: [{series: [upper.1, upper.2]}, lower]\"",
          new Entry.Text("WIRING"));
  private static final Entry RATED =
      Entry.repeated(
          "rated", "Rated impedance of each coil, or of some: upper=4ohm, lower.2=8ohm", OHM);
  private static final Entry DC =
      Entry.repeated("dc", "DC resistance of each coil, or of some, in the same way", OHM);
  private static final Entry AMPLIFIER =
      Entry.optional("amplifier", "Lowest load that the amplifier's maker allows", OHM);

  @Override
  public String name() {
    return "load";
  }

  @Override
  public String title() {
    return "Load and DC resistance of a wiring";
  }

  @Override
  public String about() {
    return "The rated load that a wiring of coils makes, the lowest modulus that IEC 60268-5 allows"
        + " a box of that load, what an ohmmeter reads, and each coil's share of the power.";
  }

  @Override
  public List<String> sources() {
    return List.of(
        "Coils are added as resistances: Ohm and Kirchhoff. That rated impedances may be added so"
            + " is common practice.",
        "Lowest modulus of 80 % of the rated impedance: IEC 60268-5, 16.1.",
        "No modulus below the DC resistance: derived, and held by a test on drawn boxes.");
  }

  @Override
  public List<Entry> entries() {
    return List.of(WIRING, RATED, DC, AMPLIFIER);
  }

  @Override
  public Worked work(Given given) throws BadEntryException {
    Circuit wiring = wiring(given);
    if (!given.has(RATED) && !given.has(DC)) {
      throw new BadEntryException(
          RATED, "Give rated, dc or both: the rated impedance or the DC resistance of the coils.");
    }
    Optional<TerminalLoad> rated = load(given, RATED, wiring);
    Optional<TerminalLoad> direct = load(given, DC, wiring);
    Worked.Sheet sheet = new Worked.Sheet();
    rated.ifPresent(load -> addRated(sheet, load));
    direct.ifPresent(load -> addDirect(sheet, load));
    OptionalDouble amplifier = given.figure(AMPLIFIER);
    if (amplifier.isPresent()) {
      double ohm = rated.map(TerminalLoad::ohm).orElseGet(() -> direct.get().surelyRatedOhm());
      addAmplifier(sheet, ohm, amplifier.getAsDouble());
    }
    addShares(sheet, rated.orElseGet(direct::get), rated.isPresent());
    return sheet.done();
  }

  private static Circuit wiring(Given given) throws BadEntryException {
    var read = TypedWiring.read(given.words(WIRING));
    if (read instanceof NoResult<Circuit> none) {
      throw new BadEntryException(WIRING, none.because() + ".");
    }
    return ((Found<Circuit>) read).value();
  }

  private static Optional<TerminalLoad> load(Given given, Entry entry, Circuit wiring)
      throws BadEntryException {
    if (!given.has(entry)) {
      return Optional.empty();
    }
    requireUsed(given, entry, wiring);
    Map<Coil, Double> ohms = new HashMap<>();
    for (Coil coil : wiring.coils()) {
      ohms.put(coil, ohm(given, entry, coil));
    }
    return Optional.of(TerminalLoad.of(wiring, ohms::get));
  }

  /** What is said of the coil itself, else of its driver, else of all. */
  private static double ohm(Given given, Entry entry, Coil coil) throws BadEntryException {
    for (String name : List.of(coil.driver() + "." + coil.number(), coil.driver(), "")) {
      List<String> those =
          given.all(entry).stream().filter(text -> nameIn(text).equals(name)).toList();
      if (those.size() > 1) {
        throw new BadEntryException(
            entry,
            entry.name()
                + (name.isEmpty() ? " of all coils" : " of " + name)
                + " is given "
                + those.size()
                + " times; give it once.");
      }
      if (!those.isEmpty()) {
        String text = those.get(0);
        String where = name.isEmpty() ? entry.name() : entry.name() + " of " + name;
        return Given.figure(entry, where, text.substring(text.indexOf('=') + 1).strip());
      }
    }
    throw new BadEntryException(
        entry,
        entry.name()
            + " says nothing of coil "
            + coil.driver()
            + "."
            + coil.number()
            + "; add "
            + coil.driver()
            + "=4ohm, or a value without name for all others.");
  }

  private static String nameIn(String text) {
    int equals = text.indexOf('=');
    return equals < 0 ? "" : text.substring(0, equals).strip();
  }

  private static void requireUsed(Given given, Entry entry, Circuit wiring)
      throws BadEntryException {
    for (String text : given.all(entry)) {
      String name = nameIn(text);
      boolean used =
          text.indexOf('=') < 0
              || wiring.coils().stream()
                  .anyMatch(
                      coil ->
                          name.equals(coil.driver())
                              || name.equals(coil.driver() + "." + coil.number()));
      if (!used) {
        throw new BadEntryException(
            entry,
            entry.name()
                + " names "
                + Quoted.of(name)
                + ", which the wiring does not have; it has "
                + String.join(", ", wiring.coils().stream().map(Coil::driver).distinct().toList())
                + ".");
      }
    }
  }

  private static void addRated(Worked.Sheet sheet, TerminalLoad load) {
    sheet
        .row("rated_load_ohm", "Rated load", load.ohm(), "ohm")
        .row("least_modulus_ohm", "Lowest modulus allowed for it", load.leastAllowedOhm(), "ohm");
  }

  private static void addDirect(Worked.Sheet sheet, TerminalLoad load) {
    sheet
        .row("dc_resistance_ohm", "DC resistance, without leads", load.ohm(), "ohm")
        .row(
            "surely_rated_ohm",
            "Highest rated impedance that is sure",
            load.surelyRatedOhm(),
            "ohm")
        .remark(
            "No box has a modulus below its DC resistance, and the lowest modulus must be 80 % of"
                + " the rated impedance or more (IEC 60268-5): so much is sure before any sweep; a"
                + " sweep may show that it can be rated higher.");
  }

  private static void addAmplifier(Worked.Sheet sheet, double ohm, double amplifierOhm) {
    sheet.row("over_amplifier", "Load over the amplifier's lowest", ohm / amplifierOhm, "");
    // A load that is a rounding below the limit is at it.
    boolean fits = ohm >= amplifierOhm * (1 - 1e-9);
    sheet.remark(
        fits
            ? "The load is not below what the amplifier allows."
            : "The load is below what the amplifier allows: do not connect it. Of a bridged"
                + " amplifier each half sees half the load; go by what its maker states for"
                + " bridged use.");
  }

  private static void addShares(Worked.Sheet sheet, TerminalLoad load, boolean rated) {
    List<List<Worked.Cell>> cells = new ArrayList<>();
    for (Share share : load.shares()) {
      cells.add(
          List.of(
              new Worked.Words(share.coil().driver() + "." + share.coil().number()),
              new Worked.Value(share.ohm()),
              new Worked.Value(Customary.PERCENT * share.power()),
              new Worked.Value(Customary.PERCENT * share.voltage())));
    }
    sheet.table(
        List.of(
            new Worked.Column("coil", "coil", ""),
            new Worked.Column("ohm", rated ? "rated" : "DC", "ohm"),
            new Worked.Column("power_percent", "power", "%"),
            new Worked.Column("voltage_percent", "voltage", "%")),
        cells);
    if (!load.isEvenOnDrivers()) {
      sheet.remark(
          "The drivers, or the coils of one, do not share the power evenly; the one with most of it"
              + " sets the limit.");
    }
  }
}
