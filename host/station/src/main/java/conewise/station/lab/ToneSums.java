package conewise.station.lab;

import conewise.analysis.impedance.ImpedanceEstimate;
import conewise.analysis.impedance.ImpedanceEstimator;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.analysis.sampling.Capture;
import conewise.analysis.sampling.SampledChannel;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * One tone's impedance with every sum that leads to it, as with pencil and spreadsheet: the least
 * squares of IEEE Std 1057 for a record of whole periods, where they become plain sums.
 *
 * @param hz the tone
 * @param rows samples of each channel
 * @param voltage its two sums
 * @param current its two sums, on the instants of the voltage
 * @param delaySeconds how much later the current was sampled
 * @param estimate what the program's own estimator says of the same record
 */
public record ToneSums(
    double hz, int rows, Sums voltage, Sums current, double delaySeconds, ImpedancePoint estimate) {

  private static final double WHOLE = 1e-6;
  private static final double NOTHING = 1e-12;
  private static final double CIRCLE_DEGREES = 360;

  /**
   * The two sums of a channel.
   *
   * @param cosine of samples times cosines
   * @param sine of samples times sines
   */
  public record Sums(double cosine, double sine) {
    static Sums of(SampledChannel channel, double hz) {
      double cosine = 0;
      double sine = 0;
      for (int k = 0; k < channel.length(); k++) {
        double angle = 2 * Math.PI * hz * k * channel.intervalSeconds();
        cosine += channel.values()[k] * Math.cos(angle);
        sine += channel.values()[k] * Math.sin(angle);
      }
      return new Sums(cosine, sine);
    }

    double size() {
      return Math.hypot(cosine, sine);
    }

    /** A wave A cos(wt) + B sin(wt) is the phasor A - jB. */
    double degrees() {
      return Math.toDegrees(Math.atan2(-sine, cosine));
    }
  }

  /**
   * Works a tone out.
   *
   * @param capture a record of whole periods of the tone
   * @param hz above 0
   * @return the sums; or why there are none, a full sentence
   */
  public static Outcome<ToneSums> of(Capture capture, double hz) {
    SampledChannel voltage = capture.voltageVolt();
    SampledChannel current = capture.currentAmpere();
    double periods = voltage.length() * voltage.intervalSeconds() * hz;
    if (!(hz > 0) || Math.abs(periods - Math.rint(periods)) > WHOLE * periods || periods < 0.5) {
      return Outcome.none(
          String.format(
              Locale.ROOT,
              "The record holds %.4g periods of %.6g Hz; sums by hand need a whole number: name a"
                  + " tone that is a multiple of %.6g Hz.",
              periods,
              hz,
              1 / (voltage.length() * voltage.intervalSeconds())));
    }
    Outcome<ImpedanceEstimate> estimate = ImpedanceEstimator.estimate(capture, hz);
    if (estimate instanceof Outcome.NoResult<ImpedanceEstimate> none) {
      return Outcome.none("The tone cannot be worked out: " + none.because() + ".");
    }
    ImpedancePoint point =
        ((Outcome.Found<ImpedanceEstimate>) estimate).value().curve().points().get(0);
    return Outcome.found(
        new ToneSums(
            hz,
            voltage.length(),
            Sums.of(voltage, hz),
            Sums.of(current, hz),
            current.firstInstantSeconds() - voltage.firstInstantSeconds(),
            point));
  }

  /** The products that the sums add up, a line for each sample; angles in degrees. */
  public static List<String> rows(Capture capture, double hz) {
    SampledChannel voltage = capture.voltageVolt();
    List<String> rows = new ArrayList<>();
    rows.add(" k    angle    v in V     i in A     v cos a    v sin a     i cos a     i sin a");
    for (int k = 0; k < voltage.length(); k++) {
      double turns = hz * k * voltage.intervalSeconds();
      double cosine = Math.cos(2 * Math.PI * turns);
      double sine = Math.sin(2 * Math.PI * turns);
      double v = voltage.values()[k];
      double i = capture.currentAmpere().values()[k];
      rows.add(
          line(
              "%2d %8.2f %9.6f %10.6f %10.6f %10.6f %11.7f %11.7f",
              k,
              CIRCLE_DEGREES * turns,
              v,
              i,
              unsigned(v * cosine),
              unsigned(v * sine),
              unsigned(i * cosine),
              unsigned(i * sine)));
    }
    return List.copyOf(rows);
  }

  /** What is printed as 0 has no sign. */
  private static double unsigned(double value) {
    return Math.abs(value) < NOTHING ? 0 : value;
  }

  /** |Z| by the sums alone. */
  double modulusOhm() {
    return voltage.size() / current.size();
  }

  /** By how many degrees the delay makes the current seem to lead. */
  double delayDegrees() {
    return CIRCLE_DEGREES * hz * delaySeconds;
  }

  /** Phase of Z by the sums alone, -180 to 180 degrees. */
  double phaseDegrees() {
    double raw = voltage.degrees() - current.degrees() + delayDegrees();
    return raw - CIRCLE_DEGREES * Math.rint(raw / CIRCLE_DEGREES);
  }

  /** All of it in lines. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(
        line("Tone %.4f Hz, %d samples of each channel, angle a = 360 degrees x f x t", hz, rows));
    lines.add("");
    lines.add(line("  sum of v cos a           %11.6f V", voltage.cosine()));
    lines.add(line("  sum of v sin a           %11.6f V", voltage.sine()));
    lines.add(line("  sum of i cos a           %11.7f A", current.cosine()));
    lines.add(line("  sum of i sin a           %11.7f A", current.sine()));
    lines.add(
        line("  peak voltage             %11.6f V   (2/n x root of the squares)", peak(voltage)));
    lines.add(line("  peak current             %11.7f A", peak(current)));
    lines.add(line("  |Z|                      %11.4f ohm", modulusOhm()));
    lines.add(line("  angle of the voltage     %11.3f degrees", voltage.degrees()));
    lines.add(line("  angle of the current     %11.3f degrees", current.degrees()));
    lines.add(
        line("  for the delay of %3.0f us  %+11.3f degrees", 1e6 * delaySeconds, delayDegrees()));
    lines.add(line("  phase of Z               %11.3f degrees", phaseDegrees()));
    double phase = Math.toRadians(phaseDegrees());
    lines.add(line("  resistance               %11.4f ohm", modulusOhm() * Math.cos(phase)));
    lines.add(line("  reactance                %11.4f ohm", modulusOhm() * Math.sin(phase)));
    lines.add("");
    lines.add(
        line(
            "The program's own least squares: %.4f ohm and %.4f ohm.",
            estimate.resistanceOhm(), estimate.reactanceOhm()));
    return List.copyOf(lines);
  }

  private double peak(Sums sums) {
    return 2 * sums.size() / rows;
  }

  private static String line(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }
}
