package conewise.analysis.vent;

import conewise.analysis.model.Air;
import conewise.analysis.outcome.Outcome;
import java.util.OptionalDouble;

/**
 * Like ducts of one space in all but their length, and what they tune it to: f = c / (2 pi) sqrt(n
 * S / (V L)), with L the duct's length and what its two ends add (H. Helmholtz, 1860; L. L.
 * Beranek, Acoustics, 1954, ch. 5, from memory). Holds while the duct is short against the
 * wavelength; friction, bends and stuffing are left out.
 *
 * @param section the cross section of one
 * @param count how many there are, from 1
 * @param inner the end in the box
 * @param outer the end outside
 * @param apartM from the middle of one to that of the next, in a row, where they are near enough to
 *     push against the same air; empty to leave that out, as is common practice
 */
public record VentShape(
    Section section, int count, Mouth inner, Mouth outer, OptionalDouble apartM) {

  private static final double MM = 1e3;
  private static final double LITRES = 1e3;

  public VentShape {
    Sizes.require("the number of like vents", count);
    if (apartM.isPresent()) {
      Sizes.require("the distance of like vents", apartM.getAsDouble());
      double least = section instanceof Section.Round round ? round.diameterM() : 0;
      if (apartM.getAsDouble() < least) {
        throw new IllegalArgumentException(
            "the distance of like vents is "
                + apartM.getAsDouble()
                + " m from middle to middle; vents of a diameter of "
                + least
                + " m do not fit beside one another so near");
      }
    }
  }

  /** Ducts whose neighbours are left out. */
  public static VentShape of(Section section, int count, Mouth inner, Mouth outer) {
    return new VentShape(section, count, inner, outer, OptionalDouble.empty());
  }

  /** What both ends add to the length, in metres. */
  public double endsM() {
    return inner.correctionM(section)
        + outer.correctionM(section)
        + (inner.part() + outer.part()) * neighboursM();
  }

  /**
   * What the other mouths of a row add to one, on average: each as a point that moves as much air
   * (derived from Rayleigh's integral; exact when they are far apart against their size).
   */
  private double neighboursM() {
    if (apartM.isEmpty()) {
      return 0;
    }
    double pairs = 0;
    for (int steps = 1; steps < count; steps++) {
      pairs += 2.0 * (count - steps) / (steps * apartM.getAsDouble());
    }
    return section.areaM2() * pairs / count / (2 * Math.PI);
  }

  /**
   * What they tune a space to, in hertz.
   *
   * @param lengthM of each duct, 0 or more: a hole in a thin wall has 0
   * @param volumeM3 net volume of the space, above 0
   */
  public double tuningHz(double lengthM, double volumeM3, Air air) {
    if (!(lengthM >= 0) || Double.isInfinite(lengthM)) {
      throw new IllegalArgumentException(
          "the length of a vent is " + lengthM + " m; it must be finite and not below 0");
    }
    Sizes.require("the volume of a space", volumeM3);
    return air.soundMPerS()
        / (2 * Math.PI)
        * Math.sqrt(count * section.areaM2() / (volumeM3 * (lengthM + endsM())));
  }

  /**
   * The length of each duct that gives a tuning, in metres; no result where even a hole in a thin
   * wall tunes too low.
   *
   * @param tuningHz wanted, above 0
   * @param volumeM3 net volume of the space, above 0
   */
  public Outcome<Double> lengthM(double tuningHz, double volumeM3, Air air) {
    Sizes.require("the wanted tuning", tuningHz);
    Sizes.require("the volume of a space", volumeM3);
    double speed = air.soundMPerS() / (2 * Math.PI * tuningHz);
    double length = count * section.areaM2() * speed * speed / volumeM3 - endsM();
    if (length >= 0) {
      return Outcome.found(length);
    }
    return Outcome.none(
        "no length gives "
            + Sizes.told(tuningHz)
            + " Hz: the duct would be "
            + Sizes.told(-length * MM)
            + " mm shorter than none, and a mere hole of that size tunes "
            + Sizes.told(volumeM3 * LITRES)
            + " litres to "
            + Sizes.told(tuningHz(0, volumeM3, air))
            + " Hz; take a larger cross section, more vents or a lower tuning");
  }

  /**
   * The air in all ducts, in cubic metres: the box loses that much, and the ducts' walls beside.
   */
  public double ductsM3(double lengthM) {
    return count * section.areaM2() * lengthM;
  }

  /**
   * The first resonance of the air in a duct by itself, half a wave long with both ends, in hertz
   * (an open pipe; Lord Rayleigh, The Theory of Sound, vol. 2, 255). Far below it the tuning holds.
   */
  public double pipeResonanceHz(double lengthM, Air air) {
    return air.soundMPerS() / (2 * (lengthM + endsM()));
  }

  /** How fast the air in them moves when they move a volume at a frequency. */
  public VentSpeed speed(double frequencyHz, double displacedM3, Air air) {
    return VentSpeed.of(count * section.areaM2(), frequencyHz, displacedM3, air);
  }
}
