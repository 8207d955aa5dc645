import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Estimate;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.parameter.DriverFigures;
import conewise.analysis.parameter.DriverMeasurement;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/** Fits the resonance of a driver in free air, whose curve is drawn here by its textbook formula. */
public final class Outside {
  private Outside() {}

  /** Prints the resonance with its interval, or why there is none. */
  public static void main(String[] arguments) {
    Outcome<DriverFigures> fitted = DriverMeasurement.freeAir(curve(30, 5, 0.5, 6), 1).figures();
    if (fitted instanceof Outcome.Found<DriverFigures> found
        && found.value().resonanceHz() instanceof Outcome.Found<Estimate> resonance) {
      Estimate hz = resonance.value();
      System.out.printf(
          Locale.ROOT,
          "fs %.2f Hz (%.2f to %.2f)%n",
          hz.value(),
          hz.interval().low(),
          hz.interval().high());
    } else {
      System.out.println(fitted);
      System.exit(1);
    }
  }

  /** Z = Re (1 + (Qms/Qes) / (1 + j Qms (f/fs - fs/f))), without a coil (Small, 1972). */
  private static ImpedanceCurve curve(double fs, double qms, double qes, double re) {
    List<ImpedancePoint> points = new ArrayList<>();
    for (double hz = 10; hz < 400; hz *= 1.03) {
      double detuned = qms * (hz / fs - fs / hz);
      double peak = re * qms / qes / (1 + detuned * detuned);
      points.add(new ImpedancePoint(hz, re + peak, -peak * detuned, Optional.empty()));
    }
    return new ImpedanceCurve(points);
  }
}
