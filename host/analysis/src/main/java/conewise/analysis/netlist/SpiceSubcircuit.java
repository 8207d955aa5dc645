package conewise.analysis.netlist;

import conewise.analysis.fit.BoxFit.Values;
import conewise.analysis.model.BoxModel;
import conewise.analysis.model.Network;
import conewise.analysis.model.NetworkSolver;
import conewise.analysis.model.Quantity;
import conewise.analysis.outcome.Outcome;
import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.apache.commons.math3.complex.Complex;
import org.apache.commons.math3.linear.SingularMatrixException;

/**
 * A box as a subcircuit of resistances, inductances, capacitances and controlled sources, which
 * every SPICE has had since its second version: no Laplace source and nothing else that one program
 * has and another lacks. A lossy inductance and a creeping spring have no element of their own and
 * are followed by ladders over a range of frequency.
 *
 * @param name of the subcircuit
 * @param text the whole file, ASCII, lines ended by a line feed
 * @param worstRelative largest departure of |Z| from the model, relative, over the range
 * @param worstDegrees the same of its phase, in degrees
 */
public record SpiceSubcircuit(String name, String text, double worstRelative, double worstDegrees) {
  /** How far the ladders may be off, relative to |Z|. */
  public static final double MOST_RELATIVE = 0.005;

  /** The same of the phase in degrees. */
  public static final double MOST_DEGREES = 0.5;

  private static final int CHECKED_POINTS = 300;

  /**
   * Writes it and holds it against the model at frequencies over the whole range.
   *
   * @param title of the box; the subcircuit's name is made of it
   * @param box the box
   * @param values its quantities
   * @param lowestHz where the range begins, above 0
   * @param highestHz where it ends, above the lowest
   * @param notes comments for the head of the file, one a line
   * @return the subcircuit, or why it does not follow the model
   */
  public static Outcome<SpiceSubcircuit> of(
      String title,
      BoxModel box,
      Values values,
      double lowestHz,
      double highestHz,
      List<String> notes) {
    if (!(lowestHz > 0 && highestHz > lowestHz) || Double.isInfinite(highestHz)) {
      throw new IllegalArgumentException(
          "a subcircuit for "
              + lowestHz
              + " to "
              + highestHz
              + " Hz; the range must rise from"
              + " above 0 to a finite end");
    }
    double turn = 2 * Math.PI;
    Ladder ladder = new Ladder(turn * lowestHz, turn * highestHz);
    Circuitry circuitry = new Circuitry(closed(BoxCircuit.parts(box, values, ladder)));
    NetworkSolver model = solver(box, values);
    double relative = 0;
    double degrees = 0;
    try {
      for (int i = 0; i <= CHECKED_POINTS; i++) {
        double hz = lowestHz * Math.pow(highestHz / lowestHz, (double) i / CHECKED_POINTS);
        model.solve(hz);
        Complex expected = new Complex(model.resistanceOhm(), model.reactanceOhm());
        Complex ratio = circuitry.impedance(BoxCircuit.PLUS, turn * hz).divide(expected);
        relative = Math.max(relative, Math.abs(ratio.abs() - 1));
        degrees = Math.max(degrees, Math.abs(Math.toDegrees(ratio.getArgument())));
      }
    } catch (SingularMatrixException singular) {
      return Outcome.none("the box's circuit has no solution as a circuit of plain elements");
    }
    if (!(relative <= MOST_RELATIVE && degrees <= MOST_DEGREES)) {
      return Outcome.none(tooFar(relative, degrees));
    }
    String name = Spelling.name(title);
    List<String> lines = new ArrayList<>();
    head(title, name, notes, lines);
    lines.add(agreement(box, relative, degrees, lowestHz, highestHz));
    lines.add(".subckt " + name + " " + BoxCircuit.PLUS + " " + BoxCircuit.MINUS);
    lines.addAll(new Circuitry(BoxCircuit.parts(box, values, ladder)).lines());
    lines.add(".ends " + name);
    return Outcome.found(
        new SpiceSubcircuit(name, String.join("\n", lines) + "\n", relative, degrees));
  }

  /** The values that a model itself states. */
  public static Values stated(BoxModel box) {
    Network network = Network.of(box);
    double[] nominal = network.nominal();
    return quantity -> nominal[network.quantities().indexOf(quantity)];
  }

  /** With the second terminal on ground, so that an impedance can be asked for. */
  private static List<Part> closed(List<Part> parts) {
    List<Part> closed = new ArrayList<>(parts);
    closed.add(new Part.Meter("ground", BoxCircuit.MINUS, "0"));
    return closed;
  }

  private static NetworkSolver solver(BoxModel box, Values values) {
    Network network = Network.of(box);
    List<Quantity> quantities = network.quantities();
    return network.solver(quantities.stream().mapToDouble(values::of).toArray());
  }

  private static String tooFar(double relative, double degrees) {
    return String.format(
        Locale.ROOT,
        "a circuit of plain elements would depart from the fitted curve by %.2g %% and %.2g"
            + " degrees; at most %.1f %% and %.1f degrees are allowed",
        100 * relative,
        degrees,
        100 * MOST_RELATIVE,
        MOST_DEGREES);
  }

  private static void head(String title, String name, List<String> notes, List<String> lines) {
    lines.add("* " + Spelling.comment(title));
    lines.add("* The box as Conewise fitted it: its impedance between plus and minus.");
    lines.add("* Use: .include this file, then  X1 plus minus " + name);
    lines.add("* Circuit side in ohm, henry, volt, ampere. Air side: a volt is a pascal, an");
    lines.add("* ampere a cubic metre a second, a henry 1 kg/m4, a farad 1 m3/Pa; node 0 is");
    lines.add("* the free air, and the drivers' motors are the H sources between the sides.");
    notes.forEach(note -> lines.add("* " + Spelling.comment(note)));
  }

  private static String agreement(
      BoxModel box, double relative, double degrees, double lowestHz, double highestHz) {
    boolean ladders =
        box.drivers().stream()
            .anyMatch(m -> m.driver().creep() > 0 || m.driver().inductance().lossyOhm() > 0);
    return String.format(
        Locale.ROOT,
        "* %s: at most %.2g %% and %.2g degrees off the fit, %s to %s Hz.",
        ladders
            ? "Lossy coils and creep are RL and RC ladders"
            : "No part of it is an approximation",
        100 * relative,
        degrees,
        rounded(lowestHz),
        rounded(highestHz));
  }

  private static String rounded(double hz) {
    return new BigDecimal(hz).round(new MathContext(4)).stripTrailingZeros().toPlainString();
  }
}
