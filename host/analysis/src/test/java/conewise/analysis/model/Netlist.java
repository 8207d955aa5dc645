package conewise.analysis.model;

import java.util.Locale;

/**
 * Netlists of boxes, written from the analogies alone: voltage for force and pressure, current for
 * velocity and volume flow (L. L. Beranek, Acoustics, 1954, ch. 3, from memory). Node 0 is ground
 * and the free air outside.
 */
final class Netlist {
  private static final double BULK = 1.204 * 343.2 * 343.2;

  private final StringBuilder text = new StringBuilder();

  Netlist line(String format, Object... values) {
    text.append(String.format(Locale.ROOT, format, values)).append('\n');
    return this;
  }

  /** The netlist's text. */
  String text() {
    return text.toString();
  }

  /** A coil of a driver; its current counts from one node to the other. */
  Netlist coil(String driver, int number, PhysicalDriver of, double henry, String from, String to) {
    String n = driver + number;
    line("Vi%s %s a%s 0", n, from, n);
    line("Rc%s a%s b%s %.15g", n, n, n, of.coilOhm());
    line("Lc%s b%s c%s %.15g", n, n, n, henry);
    return line("Hb%s c%s %s Vu%s %.15g", n, n, to, driver, of.forceFactorTm());
  }

  /** The moving part of a driver, forced by its first coils, between two pressures. */
  Netlist cone(String n, PhysicalDriver of, int coils, String behind, String before) {
    for (int k = 1; k <= coils; k++) {
      String low = k == 1 ? "0" : "f" + n + (k - 1);
      line("Hf%s%d f%s%d %s Vi%s%d %.15g", n, k, n, k, low, n, k, of.forceFactorTm());
    }
    line("Vu%s %s m1%s 0", n, coils == 0 ? "0" : "f" + n + coils, n);
    return moving(n, of.massKg(), of.complianceMPerN(), of.lossNsPerM())
        .between(n, of.areaM2(), behind, before);
  }

  /** A cone without a coil. */
  Netlist radiator(
      String n,
      double mass,
      double compliance,
      double loss,
      double area,
      String behind,
      String before) {
    line("Vu%s 0 m1%s 0", n, n);
    return moving(n, mass, compliance, loss).between(n, area, behind, before);
  }

  private Netlist moving(String n, double mass, double compliance, double loss) {
    line("Lcone%s m1%s m2%s %.15g", n, n, n, mass);
    line("Ccone%s m2%s m3%s %.15g", n, n, n, compliance);
    return line("Rcone%s m3%s m4%s %.15g", n, n, n, loss);
  }

  /** The pressure difference on the cone, and the flow that it moves from behind to before. */
  private Netlist between(String n, double area, String behind, String before) {
    line("Ep%s m4%s 0 %s %s %.15g", n, n, before, behind, area);
    return line("Fp%s %s %s Vu%s %.15g", n, behind, before, n, area);
  }

  Netlist space(String node, double litre) {
    return line("Cs%s %s 0 %.15g", node, node, compliance(litre))
        .line("Rs%s %s 0 1e15", node, node);
  }

  /** A lining in series with the air's spring: R = 1/(w Q C) at the reference frequency. */
  Netlist linedSpace(String node, double litre, double quality, double referenceHz) {
    double ohm = 1 / (2 * Math.PI * referenceHz * quality * compliance(litre));
    return line("Rq%s %s q%s %.15g", node, node, node, ohm).space("q" + node, litre);
  }

  /** A vent that tunes so many litres: M = 1/(w^2 C), R = w M/Q. */
  Netlist vent(
      String n, double tuningHz, double quality, double litre, String behind, String before) {
    double w = 2 * Math.PI * tuningHz;
    double mass = 1 / (w * w * compliance(litre));
    line("Lv%s %s v%s %.15g", n, behind, n, mass);
    return line("Rv%s v%s %s %.15g", n, n, before, w * mass / quality);
  }

  /** A leak of so many litres: R = Q/(w C) at the reference frequency. */
  Netlist leak(String n, double quality, double referenceHz, double litre, String node) {
    double ohm = quality / (2 * Math.PI * referenceHz * compliance(litre));
    return line("Rl%s %s 0 %.15g", n, node, ohm);
  }

  private static double compliance(double litre) {
    return litre / 1000 / BULK;
  }

  /**
   * K s^n as a chain of resistances beside inductances: s^n = (sin n pi)/pi times the integral of s
   * x^(n-1)/(s + x) dx over x from 0 (Euler's reflection integral, common mathematics), by the
   * trapezoid rule in ln x, its ends lumped into a resistance and an inductance.
   */
  Netlist powerLaw(String name, double k, double n, String from, String to) {
    double step = 0.6;
    double scale = k * Math.sin(n * Math.PI) / Math.PI * step;
    int low = -10;
    int high = 44;
    double resistance = 0;
    double inductance = 0;
    String node = from;
    for (int i = low - 200; i <= high + 400; i++) {
      double corner = Math.exp(i * step);
      double ohm = scale * Math.pow(corner, n);
      if (i < low) {
        resistance += ohm;
      } else if (i > high) {
        inductance += ohm / corner;
      } else {
        String next = name + "n" + (i - low);
        line("Rp%s%d %s %s %.15g", name, i - low, node, next, ohm);
        line("Lp%s%d %s %s %.15g", name, i - low, node, next, ohm / corner);
        node = next;
      }
    }
    line("Rp%slow %s %slast %.15g", name, node, name, resistance);
    return line("Lp%shigh %slast %s %.15g", name, name, to, inductance);
  }
}
