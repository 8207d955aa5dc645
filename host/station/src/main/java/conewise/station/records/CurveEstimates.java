package conewise.station.records;

import conewise.analysis.feature.Extrema;
import conewise.analysis.feature.Extremum;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.judgement.Measurement;
import conewise.analysis.outcome.Outcome;
import java.util.ArrayList;
import java.util.List;

/** The peaks and dips of a curve as estimates, {@code peak-1-hz}, {@code peak-1-ohm} and so on. */
final class CurveEstimates {
  private CurveEstimates() {}

  static List<NamedEstimate> of(Measurement measurement) {
    if (!(measurement.curve() instanceof Outcome.Found<ImpedanceCurve> found)
        || found.value().highestHz() <= 0
        || found.value().points().stream().anyMatch(point -> point.modulusOhm() == 0)) {
      return List.of();
    }
    Extrema extrema = Extrema.of(found.value());
    List<NamedEstimate> estimates = new ArrayList<>();
    add(estimates, "peak", extrema.peaks());
    add(estimates, "dip", extrema.dips());
    return estimates;
  }

  private static void add(List<NamedEstimate> estimates, String kind, List<Extremum> extrema) {
    for (int i = 0; i < extrema.size(); i++) {
      String name = kind + "-" + (i + 1);
      estimates.add(new NamedEstimate(name + "-hz", extrema.get(i).frequencyHz(), "Hz"));
      estimates.add(new NamedEstimate(name + "-ohm", extrema.get(i).modulusOhm(), "ohm"));
    }
  }
}
