package conewise.analysis.netlist;

import java.util.List;
import java.util.Locale;

/** A part of a circuit: what it is in SPICE, in lines. Node 0 is ground. */
sealed interface Part permits TwoPole, Part.Meter, Part.Follower, Part.Copy, Part.Remark {
  List<String> lines();

  /** A source of 0 V, by whose name others know the current from one node to the other. */
  record Meter(String name, String from, String to) implements Part {
    @Override
    public List<String> lines() {
      return List.of("V" + name + " " + from + " " + to + " 0");
    }
  }

  /**
   * A voltage from one node to the other that follows a current, or the voltage of a third node to
   * ground.
   *
   * @param of the meter whose current, or the node whose voltage
   * @param ofCurrent true for a current
   * @param gain volts for each ampere or volt
   */
  record Follower(String name, String from, String to, String of, boolean ofCurrent, double gain)
      implements Part {
    @Override
    public List<String> lines() {
      String what = ofCurrent ? "H%s %s %s V%s %.12g" : "E%s %s %s %s 0 %.12g";
      return List.of(String.format(Locale.ROOT, what, name, from, to, of, gain));
    }
  }

  /** A current into a node, out of ground, as large as a meter's times a gain. */
  record Copy(String name, String into, String meter, double gain) implements Part {
    @Override
    public List<String> lines() {
      return List.of(String.format(Locale.ROOT, "F%s 0 %s V%s %.12g", name, into, meter, gain));
    }
  }

  /** A comment. */
  record Remark(String text) implements Part {
    @Override
    public List<String> lines() {
      return List.of("* " + Spelling.comment(text));
    }
  }
}
