package conewise.analysis.polarity;

import conewise.analysis.outcome.Outcome;
import conewise.analysis.polarity.StepEdges.Edge;
import conewise.analysis.sampling.SampledChannel;
import java.util.Arrays;
import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * What a microphone before a cone heard right after steps of the drive, all steps together.
 *
 * <p>A step of voltage makes a step of force; until its suspension is stretched the cone's mass
 * alone holds it, so that it sets out with the acceleration Bl i / M, and before a cone the
 * pressure goes as its acceleration (Newton; Rayleigh, Theory of Sound, section 278). That half
 * cycle lasts about 1 / (4 fs) for an undamped cone, 4 ms at 60 Hz; the first {@value
 * #WINDOW_MILLISECONDS} ms are looked at, which a coupling capacitor of up to 20 Hz bends by an
 * eighth. The usual convention (IEC 60268-5 for loudspeakers, IEC 60268-4 for microphones; from
 * memory): a positive voltage on the terminal marked + moves the cone out, which raises the
 * pressure, which makes a microphone's voltage positive.
 *
 * @param pressurePascal the mean pressure in that time, above what it was right before, of steps
 *     upward; steps downward count with their sign turned
 * @param noisePascal the standard deviation of that figure, from the same sums taken where there
 *     was no step
 * @param steps how many steps it is the mean of
 * @param stepAmpere by how much a step changes the current into the box, positive
 */
public record FirstHalfCycle(
    double pressurePascal, double noisePascal, int steps, double stepAmpere) {

  /** A sign is sure when it is this many standard deviations from none. */
  public static final double SURE_DEVIATIONS = 8;

  static final int WINDOW_MILLISECONDS = 1;

  private static final double LEAST_VOLT = 0.01;
  private static final double LEAST_AMPERE = 0.002;
  private static final int LEAST_STEPS = 4;

  /** A channel that nothing is connected to wanders by the converter's noise alone, in codes. */
  public static final int STILL_CODES = 4;

  /** Checks that all are finite, and noise and current positive. */
  public FirstHalfCycle {
    if (!(stepAmpere > 0) || Double.isInfinite(stepAmpere)) {
      throw new IllegalArgumentException(
          "a step changes the current by " + stepAmpere + " A; it must be positive and finite");
    }
    if (!Double.isFinite(pressurePascal) || !(noisePascal > 0) || !Double.isFinite(noisePascal)) {
      throw new IllegalArgumentException(
          "the pressure is "
              + pressurePascal
              + " Pa with a deviation of "
              + noisePascal
              + " Pa; both must be finite, and the deviation above 0");
    }
  }

  /** The pressure for each ampere of step, which the level of the drive leaves alone. */
  public double pascalPerAmpere() {
    return pressurePascal / stepAmpere;
  }

  /** How many standard deviations the pressure is from none. */
  public double deviations() {
    return Math.abs(pressurePascal) / noisePascal;
  }

  /** True when its sign can be told. */
  public boolean isSure() {
    return deviations() >= SURE_DEVIATIONS;
  }

  /** True when the pressure rises first. */
  public boolean rises() {
    return pressurePascal > 0;
  }

  /**
   * Reads a record.
   *
   * @return what was heard, sure or not; none where no step is seen, no current flows, the
   *     microphone's channel stands still or at the end of its range, or the steps disagree
   */
  public static Outcome<FirstHalfCycle> of(HeardSteps record) {
    SampledChannel sound = record.soundPascal();
    List<Edge> edges = StepEdges.of(record.drive().voltageVolt(), LEAST_VOLT);
    edges = edges.stream().filter(edge -> AlignedSteps.reaches(sound, edge)).toList();
    if (edges.size() < LEAST_STEPS) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "%d steps of at least %.0f mV are seen at the terminals; %d are needed. Check the"
                  + " clips, and that nothing shorts them.",
              edges.size(),
              1000 * LEAST_VOLT,
              LEAST_STEPS));
    }
    double ampere = meanChange(record.drive().currentAmpere(), edges);
    if (ampere < LEAST_AMPERE) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "A step changes the current by %.2g mA; at least %.0f mA are needed. Check the clips"
                  + " and the box's wiring.",
              1000 * ampere,
              1000 * LEAST_AMPERE));
    }
    Optional<String> doubt = doubt(record);
    return doubt.isPresent()
        ? Outcome.none(doubt.get())
        : new AlignedSteps(sound, edges).heard(ampere);
  }

  /** Why a microphone's channel cannot be used. */
  private static Optional<String> doubt(HeardSteps record) {
    SampledChannel sound = record.soundPascal();
    if (sound.saturatedCount() > 0) {
      return Optional.of(
          "The microphone's channel stands at the end of its range in "
              + sound.saturatedCount()
              + " of "
              + sound.length()
              + " samples. Hold it farther from the cone, or turn its gain down.");
    }
    DoubleSummaryStatistics range = Arrays.stream(sound.values()).summaryStatistics();
    long codes = Math.round((range.getMax() - range.getMin()) / record.pascalPerCode());
    return codes > STILL_CODES
        ? Optional.empty()
        : Optional.of(
            "The microphone's channel stands still: it moves by "
                + codes
                + " converter steps, and noise alone makes "
                + STILL_CODES
                + ". Check that a microphone is connected and has its supply.");
  }

  private static double meanChange(SampledChannel channel, List<Edge> edges) {
    int gap = Math.max(1, (int) Math.round(20e-3 / channel.intervalSeconds()));
    double[] values = channel.values();
    double sum = 0;
    for (Edge edge : edges) {
      int before = Math.max(0, edge.index() - gap);
      int after = Math.min(values.length - 1, edge.index() + gap);
      sum += (edge.up() ? 1 : -1) * (values[after] - values[before]);
    }
    return sum / edges.size();
  }
}
