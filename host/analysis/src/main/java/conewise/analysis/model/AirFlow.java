package conewise.analysis.model;

import java.util.List;
import org.apache.commons.math3.complex.Complex;

/**
 * The air that a box moves at one frequency when an amplifier, whose output resistance is taken as
 * 0, puts a volt on its terminals. What leaves the box in sum makes the sound far below the
 * frequencies where a box is as large as a wavelength: a pressure that goes with frequency times
 * {@link #outward} (R. H. Small, J. Audio Eng. Soc. 20 and 21, 1972 and 1973). Immutable.
 */
public final class AirFlow {
  /** One opening, and the flow through it from behind to before it. */
  private record Through(Opening opening, Complex m3PerSecond) {}

  private final double frequencyHz;
  private final List<Through> all;

  private AirFlow(double frequencyHz, List<Through> all) {
    this.frequencyHz = frequencyHz;
    this.all = all;
  }

  /**
   * The flows with the values that a box states.
   *
   * @param frequencyHz above 0
   * @throws IllegalArgumentException when no current can pass between the terminals
   */
  public static AirFlow of(BoxModel box, double frequencyHz) {
    return of(box, Network.of(box).nominal(), frequencyHz);
  }

  /**
   * The same with other values.
   *
   * @param values of the quantities, in the order and units of {@link Network#quantities}
   */
  public static AirFlow of(BoxModel box, double[] values, double frequencyHz) {
    if (!(frequencyHz > 0) || Double.isInfinite(frequencyHz)) {
      throw new IllegalArgumentException(
          "the frequency of a flow is " + frequencyHz + " Hz; it must be finite and above 0");
    }
    NetworkSolver solver = Network.of(box).solver(values);
    solver.solve(frequencyHz);
    List<Opening> openings = box.openings();
    return new AirFlow(
        frequencyHz,
        java.util.stream.IntStream.range(0, openings.size())
            .mapToObj(o -> new Through(openings.get(o), solver.flowPerVolt(o)))
            .toList());
  }

  /**
   * The flow through an opening in m3/s for a volt, from the space behind it to the space before
   * it; 0 where the box has no opening of that name.
   */
  public Complex through(String opening) {
    return all.stream()
        .filter(each -> each.opening().name().equals(opening))
        .map(Through::m3PerSecond)
        .findFirst()
        .orElse(Complex.ZERO);
  }

  /** What leaves the box in sum, in m3/s for a volt: of cones, vents, radiators and leaks. */
  public Complex outward() {
    return all.stream().map(AirFlow::outward).reduce(Complex.ZERO, Complex::add);
  }

  /** What leaves and enters the box, each opening counted by its size, in m3/s for a volt. */
  public double stirred() {
    return all.stream().map(AirFlow::outward).mapToDouble(Complex::abs).sum();
  }

  /** The sound far away, up to a factor that is the same at all frequencies and for all boxes. */
  public double sound() {
    return frequencyHz * outward().abs();
  }

  private static Complex outward(Through each) {
    Complex sum = Complex.ZERO;
    if (each.opening().before().equals(Space.OUTSIDE)) {
      sum = sum.add(each.m3PerSecond());
    }
    return each.opening().behind().equals(Space.OUTSIDE) ? sum.subtract(each.m3PerSecond()) : sum;
  }
}
