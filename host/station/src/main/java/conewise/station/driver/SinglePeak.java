package conewise.station.driver;

import conewise.analysis.feature.Extrema;
import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedancePoint;
import conewise.analysis.outcome.Outcome;
import conewise.station.card.Figures;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** The one peak that a driver shows, in free air and in a closed box alike (common practice). */
final class SinglePeak {
  /** Less is a ripple of the cone's edge or of the room, as a ratio of moduli. */
  private static final double LEAST_PROMINENCE = 1.15;

  private SinglePeak() {}

  /** The frequency of the peak, or in a full sentence why this is no curve of one driver. */
  static Outcome<Double> hz(DriverSweep sweep) {
    Optional<String> impossible = impossible(sweep);
    if (impossible.isPresent()) {
      return Outcome.none(impossible.get());
    }
    Extrema extrema = Extrema.of(sweep.curve());
    List<Extremum> peaks =
        extrema.peaks().stream().filter(peak -> peak.prominence() >= LEAST_PROMINENCE).toList();
    if (peaks.size() == 1) {
      return Outcome.found(peaks.get(0).frequencyHz().value());
    }
    return Outcome.none(sweep.file() + (peaks.isEmpty() ? none(sweep, extrema) : several(peaks)));
  }

  /** What the impedance of a passive thing never is. */
  private static Optional<String> impossible(DriverSweep sweep) {
    return sweep.curve().points().stream()
        .filter(point -> !(point.resistanceOhm() > 0))
        .findFirst()
        .map(point -> impossible(sweep, point));
  }

  private static String impossible(DriverSweep sweep, ImpedancePoint point) {
    return sweep.file()
        + ": the resistance at "
        + Figures.plain(point.frequencyHz())
        + " Hz is "
        + Figures.plain(point.resistanceOhm())
        + " ohm, and a driver's is above 0; check which way round the current was measured.";
  }

  private static String none(DriverSweep sweep, Extrema extrema) {
    return extrema.fallsFromLowEnd()
        ? " falls from its lowest frequency, "
            + Figures.plain(sweep.curve().points().get(0).frequencyHz())
            + " Hz, so the resonance lies below it; sweep from a lower frequency."
        : " shows no peak that stands out, so it is not the curve of a driver over its resonance;"
            + " see that the cone is free and the clips are on the driver alone.";
  }

  private static String several(List<Extremum> peaks) {
    String places =
        peaks.stream()
            .map(peak -> Figures.plain(peak.frequencyHz().value()))
            .collect(Collectors.joining(", "));
    return " shows "
        + peaks.size()
        + " peaks ("
        + places
        + " Hz) where a bare driver or a closed box has 1; a vented box cannot be used here: take"
        + " the driver out, or close the vent.";
  }
}
