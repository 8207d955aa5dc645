package conewise.analysis.excitation;

import conewise.analysis.impedance.ImpedancePoint;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;

/**
 * Chooses the tones of a thorough sweep one after the other: first an even grid on a logarithmic
 * scale, then always the interval in which a straight line between its ends is likely to be most
 * wrong. It keeps no state: what was measured before an interruption is simply handed in again.
 *
 * @param lowestHz the lowest frequency, positive
 * @param highestHz the highest, above the lowest
 * @param mostTones the number of tones never exceeded, at least 3
 * @param tickSeconds the jig's tick, in seconds
 * @param ticksPerFrame ticks from one frame to the next, at least 1
 */
public record ToneSchedule(
    double lowestHz, double highestHz, int mostTones, double tickSeconds, int ticksPerFrame) {

  /** Tones of the even grid. */
  private static final int GRID = 17;

  /**
   * An interval is bisected while a straight line across it may be wrong by more than this part.
   */
  private static final double ENOUGH = 0.005;

  /** An interval across which Z turns by more than this is bisected, in radians: 15 degrees. */
  private static final double MOST_TURN = Math.PI / 12;

  /** Intervals narrower than this part of their frequency are left: sharper than any box. */
  private static final double NARROWEST = 0.004;

  /** A record lasts at least this long, in seconds, and at least {@link #FEWEST_PERIODS}. */
  private static final double SHORTEST_SECONDS = 0.25;

  private static final int FEWEST_PERIODS = 5;

  public ToneSchedule {
    if (!(lowestHz > 0) || !(highestHz > lowestHz) || Double.isInfinite(highestHz)) {
      throw new IllegalArgumentException(
          "the sweep runs from "
              + lowestHz
              + " to "
              + highestHz
              + " Hz; it must rise between finite positive frequencies");
    }
    if (mostTones < 3) {
      throw new IllegalArgumentException(
          mostTones + " tones were allowed; a sweep needs at least 3");
    }
    if (!(tickSeconds > 0) || ticksPerFrame < 1) {
      throw new IllegalArgumentException(
          "a tick of "
              + tickSeconds
              + " s and "
              + ticksPerFrame
              + " ticks a frame; both must be positive");
    }
  }

  /** 10 to 400 Hz with at most 80 tones on a jig with ticks of 64 microseconds and two channels. */
  public static ToneSchedule standard() {
    return new ToneSchedule(10, 400, 80, 64e-6, 2);
  }

  /**
   * The next tone to play.
   *
   * @param measured the points measured so far, in any order
   * @return the tone; or nothing when the curve is known well enough or enough tones were played
   */
  public Optional<ScheduledTone> next(List<ImpedancePoint> measured) {
    if (measured.size() >= mostTones) {
      return Optional.empty();
    }
    List<ImpedancePoint> points = new ArrayList<>(measured);
    points.sort(Comparator.comparingDouble(ImpedancePoint::frequencyHz));
    int grid = Math.min(GRID, mostTones);
    for (int i = 0; i < grid; i++) {
      double hz = lowestHz * Math.pow(highestHz / lowestHz, i / (grid - 1.0));
      ScheduledTone tone = tone(hz);
      if (points.stream().noneMatch(p -> isSame(p.frequencyHz(), tone.frequencyHz()))) {
        return Optional.of(tone);
      }
    }
    return worstInterval(points).map(this::tone);
  }

  private Optional<Double> worstInterval(List<ImpedancePoint> points) {
    double worst = 1;
    Optional<Double> middle = Optional.empty();
    for (int i = 0; i + 1 < points.size(); i++) {
      double low = points.get(i).frequencyHz();
      double high = points.get(i + 1).frequencyHz();
      double need = need(points, i);
      if (need > worst && high / low > 1 + NARROWEST) {
        worst = need;
        middle = Optional.of(Math.sqrt(low * high));
      }
    }
    return middle;
  }

  /** How much an interval needs another point; above 1 it does. */
  private static double need(List<ImpedancePoint> points, int i) {
    Complex low = z(points.get(i));
    Complex high = z(points.get(i + 1));
    double size = Math.max(Math.min(low.abs(), high.abs()), 1e-12);
    double width = x(points.get(i + 1)) - x(points.get(i));
    double bend = 0;
    if (i > 0) {
      bend = Math.max(bend, secondSlope(points, i - 1));
    }
    if (i + 2 < points.size()) {
      bend = Math.max(bend, secondSlope(points, i));
    }
    // A straight line is wrong by at most h^2/8 times the second derivative (any numerical text).
    double wrong = width * width / 8 * bend / size;
    double turn = Math.abs(high.multiply(low.conjugate()).getArgument());
    return Math.max(wrong / ENOUGH, turn / MOST_TURN);
  }

  /** The second divided difference over three neighbours, times 2, against log frequency. */
  private static double secondSlope(List<ImpedancePoint> points, int first) {
    ImpedancePoint a = points.get(first);
    ImpedancePoint b = points.get(first + 1);
    ImpedancePoint c = points.get(first + 2);
    Complex ab = z(b).subtract(z(a)).divide(x(b) - x(a));
    Complex bc = z(c).subtract(z(b)).divide(x(c) - x(b));
    return 2 * bc.subtract(ab).abs() / (x(c) - x(a));
  }

  private static double x(ImpedancePoint point) {
    return Math.log(point.frequencyHz());
  }

  private static Complex z(ImpedancePoint point) {
    return new Complex(point.resistanceOhm(), point.reactanceOhm());
  }

  private static boolean isSame(double oneHz, double otherHz) {
    return Math.abs(oneHz - otherHz) < NARROWEST * otherHz;
  }

  /**
   * The playable tone nearest to a frequency whose record holds whole periods: the frames are
   * whole, so the frequency gives way, by at most half a frame over the record (0.03 % at 7812.5
   * frames a second).
   */
  public ScheduledTone tone(double frequencyHz) {
    double frameSeconds = tickSeconds * ticksPerFrame;
    double wanted = Math.max(SHORTEST_SECONDS * frequencyHz, FEWEST_PERIODS);
    int periods = (int) Math.ceil(wanted - 1e-9);
    int frames = (int) Math.max(1, Math.round(periods / (frequencyHz * frameSeconds)));
    long step = Math.round(0x1p32 * tickSeconds * periods / (frames * frameSeconds));
    return new ScheduledTone(step, step / (0x1p32 * tickSeconds), periods, frames);
  }
}
