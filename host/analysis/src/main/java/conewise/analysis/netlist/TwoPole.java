package conewise.analysis.netlist;

import java.util.List;
import java.util.Locale;
import java.util.function.DoubleFunction;
import org.apache.commons.math3.complex.Complex;

/**
 * Anything between two nodes that is told by its admittance.
 *
 * @param from a node
 * @param to the other
 * @param admittance in siemens, of the angular frequency in rad/s
 * @param lines what it is in SPICE
 */
record TwoPole(String from, String to, DoubleFunction<Complex> admittance, List<String> lines)
    implements Part {
  TwoPole {
    lines = List.copyOf(lines);
  }

  static TwoPole resistor(String name, String from, String to, double ohm) {
    return new TwoPole(
        from, to, w -> new Complex(1 / ohm), List.of(line('R', name, from, to, ohm)));
  }

  static TwoPole inductor(String name, String from, String to, double henry) {
    return new TwoPole(
        from, to, w -> new Complex(0, -1 / (w * henry)), List.of(line('L', name, from, to, henry)));
  }

  static TwoPole capacitor(String name, String from, String to, double farad) {
    return new TwoPole(
        from, to, w -> new Complex(0, w * farad), List.of(line('C', name, from, to, farad)));
  }

  /** One line of an element with one value. */
  static String line(char letter, String name, String from, String to, double value) {
    return String.format(Locale.ROOT, "%c%s %s %s %.12g", letter, name, from, to, value);
  }
}
