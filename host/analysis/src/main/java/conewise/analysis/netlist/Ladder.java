package conewise.analysis.netlist;

import java.util.ArrayList;
import java.util.List;
import org.apache.commons.math3.complex.Complex;

/**
 * Networks of plain elements for what has none of its own: a lossy inductance K (j w)^n and a
 * spring that creeps. Both are integrals over relaxations of all time constants, taken by the
 * trapezoid rule in the logarithm of the corner x, two corners a decade; on integrands like these
 * its error falls as exp(-pi^2/step), here to 2e-4 (L. N. Trefethen and J. A. C. Weideman, SIAM
 * Review 56, 2014, theorem 5.1, from memory). Corners far below and far above the range of use are
 * lumped. All elements are positive where the loss is.
 */
final class Ladder {
  private static final double STEP = Math.log(10) / 2;

  /** Corners go beyond the range by these factors, in angular frequency. */
  private static final double COIL_MARGIN = 100;

  private static final double SPRING_MARGIN = 30;

  /** An exponent nearer to 1 than this is an inductance's: over a range of 100 it is 0.2 % off. */
  private static final double NEARLY_ONE = 1e-3;

  private final double lowest;
  private final double highest;

  /** For a range of angular frequency in rad/s. */
  Ladder(double lowest, double highest) {
    this.lowest = lowest;
    this.highest = highest;
  }

  /** A resistance and a reactance's element beside each other or one after the other. */
  private record Cell(double ohm, double other) {}

  private List<Double> corners(double margin) {
    double from = Math.log(lowest / margin);
    int count = (int) Math.ceil((Math.log(highest * margin) - from) / STEP) + 1;
    List<Double> corners = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      corners.add(Math.exp(from + i * STEP));
    }
    return corners;
  }

  /**
   * K s^n = K sin(n pi)/pi times the integral of s x^(n-1)/(s + x) over all x (Euler's reflection
   * integral, common mathematics): each corner is a resistance beside an inductance.
   */
  TwoPole lossyInductance(String name, String from, String to, double k, double n) {
    if (Math.abs(n - 1) < NEARLY_ONE) {
      double middle = Math.sqrt(lowest * highest);
      return TwoPole.inductor(name, from, to, k * Math.pow(middle, n - 1));
    }
    double scale = k * Math.sin(n * Math.PI) / Math.PI * STEP;
    List<Double> corners = corners(COIL_MARGIN);
    List<Cell> cells = new ArrayList<>();
    for (double x : corners) {
      double ohm = scale * Math.pow(x, n);
      cells.add(new Cell(ohm, ohm / x));
    }
    double first = corners.get(0);
    double last = corners.get(corners.size() - 1);
    // Geometric series of all corners left out.
    double ohm = scale * Math.pow(first, n) / Math.expm1(n * STEP);
    double henry = scale * Math.pow(last, n - 1) / Math.expm1((1 - n) * STEP);
    return chain(name, from, to, cells, ohm, henry);
  }

  private static TwoPole chain(
      String name, String from, String to, List<Cell> cells, double ohm, double henry) {
    List<String> lines = new ArrayList<>();
    String node = from;
    for (int i = 0; i < cells.size(); i++) {
      String next = name + "_" + (i + 1);
      lines.add(TwoPole.line('R', name + "_" + (i + 1), node, next, cells.get(i).ohm()));
      lines.add(TwoPole.line('L', name + "_" + (i + 1), node, next, cells.get(i).other()));
      node = next;
    }
    lines.add(TwoPole.line('R', name + "_low", node, name + "_end", ohm));
    lines.add(TwoPole.line('L', name + "_high", name + "_end", to, henry));
    return new TwoPole(
        from,
        to,
        w -> {
          Complex sum = new Complex(ohm, w * henry);
          for (Cell cell : cells) {
            Complex reactance = new Complex(0, w * cell.other());
            sum = sum.add(reactance.multiply(cell.ohm()).divide(reactance.add(cell.ohm())));
          }
          return sum.reciprocal();
        },
        lines);
  }

  /**
   * A compliance C (1 - creep log10(s/ws))/(1 + b^2), b = creep (pi/2)/ln 10. -ln s is the integral
   * of 1/(x + s) over all x, less a constant: each corner is a compliance behind a loss, all side
   * by side.
   *
   * @param reference ws in rad/s
   */
  TwoPole creepingSpring(
      String name, String from, String to, double farad, double creep, double reference) {
    double share = creep / Math.log(10);
    double b = share * Math.PI / 2;
    double whole = farad / (1 + b * b);
    List<Double> corners = corners(SPRING_MARGIN);
    List<Cell> cells = new ArrayList<>();
    double each = whole * share * STEP;
    for (double x : corners) {
      cells.add(new Cell(1 / (x * each), each));
    }
    double last = corners.get(corners.size() - 1);
    double stiff = whole * (1 + share * (Math.log(reference / last) - STEP / 2));
    double leak = each * corners.get(0) / Math.expm1(STEP);
    return relaxations(name, from, to, cells, stiff, leak);
  }

  private static TwoPole relaxations(
      String name, String from, String to, List<Cell> cells, double farad, double siemens) {
    List<String> lines = new ArrayList<>();
    lines.add(TwoPole.line('C', name, from, to, farad));
    lines.add(TwoPole.line('R', name, from, to, 1 / siemens));
    for (int i = 0; i < cells.size(); i++) {
      String node = name + "_" + (i + 1);
      lines.add(TwoPole.line('R', node, from, node, cells.get(i).ohm()));
      lines.add(TwoPole.line('C', node, node, to, cells.get(i).other()));
    }
    return new TwoPole(
        from,
        to,
        w -> {
          Complex sum = new Complex(siemens, w * farad);
          for (Cell cell : cells) {
            sum = sum.add(new Complex(cell.ohm(), -1 / (w * cell.other())).reciprocal());
          }
          return sum;
        },
        lines);
  }
}
