package conewise.analysis.impedance;

import conewise.analysis.sampling.Capture;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * The impedance at the tones of a periodic wave while its record still comes: each time from the
 * latest whole period, which moves on by an eighth of a period. Over a whole period the tones do
 * not disturb one another, so running sums give what a fit of that period gives, and no samples are
 * kept. It is for eyes only: the whole record says more.
 *
 * <p>The first curve stands after nine eighths of a period, for one period by itself cannot show
 * whether the box had settled. The uncertainty of a point is that of its noise and, as a standard
 * uncertainty of each part, twice what the point changed by since an eighth of a period before.
 * Where a ring dies off to 1/e in a time T and the last change, in a time m, was D, no more than
 * D/(e^(m/T) - 1) is still to come (geometric series): the 95 % interval holds that for T up to
 * half a period. It also holds hum that stands a third of a line or more from a tone, since that
 * turns against the tone from one estimate to the next.
 */
public final class RunningEstimate {

  /** So many curves stand, one after another, in one period. */
  public static final int PARTS = 8;

  /** Standard uncertainties for each change. */
  private static final double CHANGES = 2;

  private final int periodFrames;
  private final int[] lines;
  private final Deque<PeriodSums> parts = new ArrayDeque<>();
  private Optional<PeriodSums.Clock> clock = Optional.empty();
  private List<Optional<ImpedancePoint>> before = List.of();
  private Optional<ImpedanceCurve> curve = Optional.empty();
  private PeriodSums part;
  private int frames;
  private boolean saturated;

  /**
   * An estimate before the first sample.
   *
   * @param periodFrames samples of each channel in one period: a multiple of {@link #PARTS}, more
   *     than the unknowns, which are two for each line and an offset
   * @param lines the multiples of the period's frequency that are played, rising, each at least 1
   */
  public RunningEstimate(int periodFrames, List<Integer> lines) {
    int unknowns = 2 * lines.size() + 1;
    if (periodFrames % PARTS != 0 || periodFrames <= unknowns) {
      throw new IllegalArgumentException(
          "the period has "
              + periodFrames
              + " samples; it must be a multiple of "
              + PARTS
              + " above "
              + unknowns
              + ", the unknowns");
    }
    this.periodFrames = periodFrames;
    this.lines = lines.stream().mapToInt(Integer::intValue).toArray();
    part = new PeriodSums(periodFrames, this.lines, 0);
  }

  /**
   * Takes the samples that follow. One that stands at a rail ends it: there is no curve from then
   * on.
   *
   * @param piece the next samples of a record without a gap
   * @return whether {@link #curve} is another than before
   */
  public boolean add(Capture piece) {
    Optional<ImpedanceCurve> old = curve;
    saturated |=
        piece.voltageVolt().saturatedCount() > 0 || piece.currentAmpere().saturatedCount() > 0;
    if (saturated) {
      curve = Optional.empty();
      return old.isPresent();
    }
    clock = clock.or(() -> Optional.of(PeriodSums.Clock.of(piece)));
    double[] volt = piece.voltageVolt().values();
    double[] ampere = piece.currentAmpere().values();
    for (int k = 0; k < volt.length; k++) {
      part.add(volt[k], ampere[k]);
      frames++;
      if (frames % (periodFrames / PARTS) == 0) {
        endPart();
      }
    }
    return curve.isPresent() && !curve.equals(old);
  }

  /** The curve of the latest whole period; none before there is another to compare it with. */
  public Optional<ImpedanceCurve> curve() {
    return curve;
  }

  private void endPart() {
    parts.add(part);
    part = new PeriodSums(periodFrames, lines, frames);
    if (parts.size() > PARTS) {
      parts.remove();
    }
    if (parts.size() == PARTS) {
      List<Optional<ImpedancePoint>> now =
          PeriodSums.together(parts, new PeriodSums(periodFrames, lines, 0))
              .points(clock.orElseThrow());
      curve = compared(now);
      before = now;
    }
  }

  private Optional<ImpedanceCurve> compared(List<Optional<ImpedancePoint>> now) {
    List<ImpedancePoint> points = new ArrayList<>(now.size());
    for (int line = 0; line < before.size(); line++) {
      Optional<ImpedancePoint> old = before.get(line);
      now.get(line)
          .flatMap(point -> old.map(other -> withChange(other, point)))
          .ifPresent(points::add);
    }
    return Stream.of(points).filter(all -> !all.isEmpty()).map(ImpedanceCurve::new).findFirst();
  }

  private static ImpedancePoint withChange(ImpedancePoint old, ImpedancePoint now) {
    double change =
        Math.hypot(
            now.resistanceOhm() - old.resistanceOhm(), now.reactanceOhm() - old.reactanceOhm());
    return new ImpedancePoint(
        now.frequencyHz(),
        now.resistanceOhm(),
        now.reactanceOhm(),
        now.uncertainty().map(ImpedanceUncertainty.circular(CHANGES * change)::plus));
  }
}
