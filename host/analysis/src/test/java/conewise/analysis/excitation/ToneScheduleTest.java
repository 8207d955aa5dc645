package conewise.analysis.excitation;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import conewise.analysis.impedance.ImpedancePoint;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.apache.commons.math3.complex.Complex;
import org.junit.jupiter.api.Test;

class ToneScheduleTest {

  /** 4 ohm in series with a parallel resonance of 40 ohm at 33 Hz with a quality factor of 7. */
  private static Complex resonance(double hz) {
    double detuning = 7 * (hz / 33 - 33 / hz);
    return new Complex(4).add(new Complex(40).divide(new Complex(1, detuning)));
  }

  private static List<ImpedancePoint> sweep(ToneSchedule schedule) {
    List<ImpedancePoint> points = new ArrayList<>();
    Optional<ScheduledTone> next = schedule.next(points);
    while (next.isPresent()) {
      double hz = next.get().frequencyHz();
      Complex z = resonance(hz);
      points.add(new ImpedancePoint(hz, z.getReal(), z.getImaginary(), Optional.empty()));
      next = schedule.next(points);
    }
    points.sort(Comparator.comparingDouble(ImpedancePoint::frequencyHz));
    return points;
  }

  @Test
  void tonesGatherWhereTheCurveBends() {
    List<ImpedancePoint> points = sweep(ToneSchedule.standard());
    long near = points.stream().filter(p -> Math.abs(p.frequencyHz() - 33) < 8).count();
    assertTrue(points.size() <= 80, points.size() + " tones");
    assertTrue(near > points.size() / 3, near + " of " + points.size() + " tones near 33 Hz");
  }

  @Test
  void straightLinesBetweenThePointsAreRightToOnePercent() {
    List<ImpedancePoint> points = sweep(ToneSchedule.standard());
    for (int i = 0; i + 1 < points.size(); i++) {
      ImpedancePoint a = points.get(i);
      ImpedancePoint b = points.get(i + 1);
      Complex middle =
          new Complex(a.resistanceOhm() + b.resistanceOhm(), a.reactanceOhm() + b.reactanceOhm())
              .divide(2);
      Complex truth = resonance(Math.sqrt(a.frequencyHz() * b.frequencyHz()));
      assertEquals(
          0, middle.subtract(truth).abs() / truth.abs(), 0.01, "after " + a.frequencyHz() + " Hz");
    }
  }

  @Test
  void handingInWhatWasMeasuredResumesTheSameSweep() {
    ToneSchedule schedule = ToneSchedule.standard();
    List<ImpedancePoint> all = sweep(schedule);
    assertTrue(schedule.next(all).isEmpty());
    List<ImpedancePoint> part = new ArrayList<>(all);
    ImpedancePoint lost = part.remove(0);
    assertEquals(lost.frequencyHz(), schedule.next(part).orElseThrow().frequencyHz(), 1e-6);
  }

  @Test
  void recordsHoldWholePeriodsToAThousandth() {
    ToneSchedule schedule = ToneSchedule.standard();
    for (double hz = 10; hz <= 400; hz *= 1.013) {
      ScheduledTone tone = schedule.tone(hz);
      double periods = tone.frequencyHz() * tone.frames() * 128e-6;
      assertEquals(tone.periods(), periods, 1e-3, "at " + hz);
      assertEquals(hz, tone.frequencyHz(), hz * 3e-4);
      assertEquals(tone.step() / (0x1p32 * 64e-6), tone.frequencyHz(), 1e-12);
      assertTrue(tone.periods() >= 5);
    }
  }

  @Test
  void boundsAreKeptAndBadOnesRefused() {
    assertEquals(5, sweep(new ToneSchedule(10, 400, 5, 64e-6, 2)).size());
    assertThrows(IllegalArgumentException.class, () -> new ToneSchedule(0, 400, 80, 64e-6, 2));
    assertThrows(IllegalArgumentException.class, () -> new ToneSchedule(20, 10, 80, 64e-6, 2));
    assertThrows(IllegalArgumentException.class, () -> new ToneSchedule(10, 400, 2, 64e-6, 2));
  }
}
