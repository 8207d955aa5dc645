package conewise.simulator.box;

import static conewise.simulator.dynamics.Limits.require;

import java.util.List;

/**
 * Inductance of one coil as a chain that a differential equation can hold: a plain inductance in
 * series with sections, each an inductance beside a resistance.
 *
 * @param seriesHenry the plain part; 0 for none
 * @param sections the lossy parts
 */
public record Inductance(double seriesHenry, List<Section> sections) {
  /** No inductance. */
  public static final Inductance NONE = new Inductance(0, List.of());

  /**
   * An inductance with a resistance beside it.
   *
   * @param henry above 0
   * @param ohm above 0
   */
  public record Section(double henry, double ohm) {
    /** Checks both values. */
    public Section {
      require("inductance of a section", henry, 1e-9, 10, "H");
      require("resistance of a section", ohm, 1e-9, 1e7, "ohm");
    }
  }

  /** Checks the series part. */
  public Inductance {
    require("series inductance", seriesHenry, 0, 10, "H");
    sections = List.copyOf(sections);
  }

  /** A plain inductance without loss. */
  public static Inductance plain(double henry) {
    return new Inductance(henry, List.of());
  }

  /** A plain inductance in series with a second one that has a resistance beside it. */
  public static Inductance stepped(double henry, double secondHenry, double secondOhm) {
    return new Inductance(henry, List.of(new Section(secondHenry, secondOhm)));
  }

  /**
   * The half-inductance of a coil around iron: a chain whose impedance follows K (j w)^n over 5 Hz
   * to 5 kHz (W. M. Leach, J. Audio Eng. Soc. 50 (2002), 442).
   *
   * @param k in ohm at 1 rad/s, 1e-6 to 10
   * @param n 0.4 (half-way to a resistance) to 1 (a plain inductance)
   */
  public static Inductance lossy(double k, double n) {
    return LossyChain.fit(k, n);
  }

  /** The same chain with every impedance times a factor. */
  public Inductance times(double factor) {
    return new Inductance(
        factor * seriesHenry,
        sections.stream()
            .map(each -> new Section(factor * each.henry, factor * each.ohm))
            .toList());
  }
}
