package conewise.station.calculation;

import conewise.analysis.lead.Gauge;
import conewise.analysis.lead.Lead;
import conewise.analysis.lead.LeadLoss;
import conewise.station.card.Figures;
import conewise.station.files.Quoted;
import conewise.station.planfile.Measure;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Gauge, length and loss of a lead. */
final class LeadCalculation implements Calculation {
  /** 14, or 2/0, or 00 for the same. */
  private static final String NUMBER = "([1-9][0-9]?)(/0)?|(0{1,4})";

  private static final Pattern AWG =
      Pattern.compile(
          "(?:" + NUMBER + ")\\s*AWG|AWG\\s*(?:" + NUMBER + ")", Pattern.CASE_INSENSITIVE);
  private static final Entry.Figure OHM = new Entry.Figure(Measure.RESISTANCE, 0.1, 10_000);
  private static final Entry.Figure SECTION =
      new Entry.Figure(Measure.WIRE_SECTION, 0.001e-6, 500e-6);
  private static final Entry.Figure THICKNESS = new Entry.Figure(Measure.LENGTH, 0.03e-3, 25e-3);

  /** Nominal sections of conductors in mm2 (IEC 60228, from memory). */
  private static final double[] NOMINAL_MM2 = {0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25};

  private static final Entry GAUGE =
      Entry.optional(
          "gauge",
          "Each conductor: 14AWG, 2.5mm2, or the diameter of a solid one, 1.6mm or 0.064in",
          new Entry.Text("GAUGE"));
  private static final Entry LOSS =
      Entry.optional(
          "loss",
          "In its place: the loss to keep, for the thinnest gauge that does",
          new Entry.Figure(Measure.LEVEL, 0.001, 20));
  private static final Entry LENGTH =
      Entry.required(
          "length", "Length of the lead, one way", new Entry.Figure(Measure.LENGTH, 0.01, 10_000));
  private static final Entry LOAD = Entry.required("load", "The load at its end", OHM);
  private static final Entry DC =
      Entry.optional("dc", "DC resistance of that load, for the drivers' electrical Q", OHM);
  private static final Entry COPPER =
      Entry.usual(
          "copper",
          "Temperature of the copper",
          new Entry.Figure(Measure.TEMPERATURE, -50, 150),
          "20 C");

  @Override
  public String name() {
    return "lead";
  }

  @Override
  public String title() {
    return "Gauge, length and loss of a lead";
  }

  @Override
  public String about() {
    return "What a copper lead of two conductors resists and takes before a load, or the thinnest"
        + " one that keeps a loss.";
  }

  @Override
  public List<String> sources() {
    return List.of(
        "Wire gauges: ASTM B258. Copper: IEC 60028 (from memory), against temperature NBS Handbook"
            + " 100. Nominal sections: IEC 60228 (from memory).",
        "The loss is that of a divider; the load counts as a resistance, for which it is"
            + " greatest.");
  }

  @Override
  public List<Entry> entries() {
    return List.of(GAUGE, LOSS, LENGTH, LOAD, DC, COPPER);
  }

  @Override
  public Worked work(Given given) throws BadEntryException {
    boolean wanted = given.oneOf(GAUGE, LOSS).equals(LOSS);
    double length = given.value(LENGTH);
    double load = given.value(LOAD);
    double copper = given.value(COPPER);
    Gauge gauge =
        wanted ? Lead.thinnest(given.value(LOSS), load, length, copper) : gauge(given.words(GAUGE));
    Lead lead = new Lead(gauge, length, copper);
    Worked.Sheet sheet = new Worked.Sheet();
    addGauge(sheet, gauge, wanted);
    addLoss(sheet, lead.before(load), given.figure(DC));
    if (wanted) {
      sheet.remark(next(gauge));
    }
    return sheet
        .remark(
            "Out and back are counted. How much current a lead may carry is another question: go by"
                + " its maker and by local rules.")
        .done();
  }

  private static Gauge gauge(String text) throws BadEntryException {
    Matcher awg = AWG.matcher(text);
    if (awg.matches()) {
      return awg(text, awg);
    }
    boolean section = text.matches(".*(mm|m)2");
    Entry form = Entry.optional(GAUGE.name(), GAUGE.about(), section ? SECTION : THICKNESS);
    if (!text.matches(".*[0-9]\\s*(mm2|m2|mm|cm|m|in|ft)")) {
      throw new BadEntryException(
          GAUGE,
          "gauge is "
              + Quoted.of(text)
              + "; allowed is a wire gauge such as 14 AWG, a section such as 2.5 mm2, or a diameter"
              + " such as 1.6 mm or 0.064 in.");
    }
    double value = Given.figure(form, GAUGE.name(), text);
    return section ? new Gauge(value) : Gauge.ofDiameter(value);
  }

  private static Gauge awg(String text, Matcher awg) throws BadEntryException {
    int first = text.toUpperCase(Locale.ROOT).startsWith("AWG") ? 4 : 1;
    String digits = awg.group(first);
    boolean slashed = awg.group(first + 1) != null;
    int number = digits == null ? awg.group(first + 2).length() : Integer.parseInt(digits);
    int gauge = digits == null || slashed ? 1 - number : number;
    if (gauge < Gauge.THICKEST_AWG || gauge > Gauge.THINNEST_AWG) {
      throw new BadEntryException(
          GAUGE,
          "gauge is "
              + Quoted.of(text)
              + "; allowed is "
              + Gauge.written(Gauge.THICKEST_AWG)
              + " to "
              + Gauge.written(Gauge.THINNEST_AWG)
              + ".");
    }
    return Gauge.awg(gauge);
  }

  private static void addGauge(Worked.Sheet sheet, Gauge gauge, boolean wanted) {
    sheet
        .row(
            "section_mm2",
            wanted ? "Thinnest section that keeps it" : "Section of each conductor",
            Customary.MM2 * gauge.areaM2(),
            "mm2")
        .row(
            "awg",
            gauge.awg() < 0.5 ? "As a wire gauge; 1/0 is 0, 2/0 is -1" : "As a wire gauge",
            gauge.awg(),
            "AWG")
        .row(
            "diameter_mm",
            "Diameter if it is solid",
            Customary.MM * gauge.diameterM(),
            "mm",
            Customary.INCHES * gauge.diameterM(),
            "in");
  }

  private static void addLoss(Worked.Sheet sheet, LeadLoss loss, OptionalDouble dcOhm) {
    sheet
        .row("lead_ohm", "Resistance, out and back", loss.leadOhm(), "ohm")
        .row("loss_db", "Loss of level at the load", loss.decibel(), "dB")
        .row(
            "power_in_lead_percent",
            "Of the amplifier's power the lead takes",
            Customary.PERCENT * loss.powerInLead(),
            "%")
        .row(
            "power_left_percent",
            "Of its power the load keeps",
            Customary.PERCENT * loss.powerLeft(),
            "%");
    if (dcOhm.isPresent()) {
      double factor = loss.electricalQFactor(dcOhm.getAsDouble());
      sheet
          .row("electrical_q_factor", "Electrical Q of the drivers, times", factor, "")
          .remark(
              "A lead damps less only by what it adds to the coils' own resistance, and that it"
                  + " raises the electrical Q by; the coils are most of the sum, whatever the"
                  + " amplifier.");
    }
  }

  private static String next(Gauge gauge) {
    int awg = (int) Math.floor(gauge.awg() + 1e-9);
    String american =
        awg < Gauge.THICKEST_AWG
            ? "No wire gauge is thick enough"
            : "The thinnest wire gauge that keeps it is "
                + Gauge.written(Math.min(awg, Gauge.THINNEST_AWG));
    for (double nominal : NOMINAL_MM2) {
      if (nominal >= Customary.MM2 * gauge.areaM2() * (1 - 1e-9)) {
        return String.format(
            Locale.ROOT,
            "%s; of nominal sections %s mm2 is the first.",
            american,
            Figures.plain(nominal));
      }
    }
    return american + "; no nominal section up to 25 mm2 is large enough.";
  }
}
