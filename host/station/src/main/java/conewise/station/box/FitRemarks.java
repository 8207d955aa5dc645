package conewise.station.box;

import conewise.analysis.fit.BoxFit;
import conewise.analysis.fit.Discrepancy;
import conewise.analysis.impedance.ImpedanceCurve;
import conewise.analysis.model.BoxModel;
import conewise.analysis.parameter.FittedBox;
import conewise.station.card.Figures;
import conewise.station.driver.DriverNotes;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/** What a reader of a fitted box's figures must know of them. */
public final class FitRemarks {
  /** One sound box in 400 has a given figure so far off, if spreads are what they say. */
  private static final double FAR_SPREADS = 3;

  private FitRemarks() {}

  static List<String> of(List<BoxSweep> sweeps, FittedBox fitted) {
    List<String> notes = new ArrayList<>();
    for (int i = 0; i < sweeps.size(); i++) {
      int all = sweeps.get(i).curve().points().size();
      ImpedanceCurve used = fitted.fit().sweeps().get(i).curve();
      if (used.points().size() < all) {
        notes.add(DriverNotes.partly(sweeps.get(i).file(), all, used));
      }
    }
    strays(fitted.fit()).ifPresent(notes::add);
    notes.add(quality(fitted.fit()));
    notes.add(scale(sweeps, fitted.fit().scale()));
    BoxModel box = fitted.model();
    if (box.spaces().size() == 1) {
      notes.add(
          "The volume of "
              + box.spaces().get(0).name()
              + " is taken as planned: 1 % in it is 1 % in Vas; compliance ratio, tuning and Q"
              + " are free of it.");
    }
    return notes;
  }

  private static Optional<String> strays(BoxFit fit) {
    Map<String, Double> strays = fit.strays(FAR_SPREADS);
    if (strays.isEmpty()) {
      return Optional.empty();
    }
    String each =
        strays.entrySet().stream()
            .map(stray -> stray.getKey() + " (" + Figures.plain(Math.rint(stray.getValue())) + ")")
            .collect(Collectors.joining(", "));
    return Optional.of(
        "Far from the plan, in standard deviations of what it allows: "
            + each
            + ". A curve that fits only so is likely that of a box with a fault or of another one:"
            + " ask \"conewise judge\" before using a figure.");
  }

  /** What a fit leaves over and what the model is taken to be off, in words. */
  public static String quality(BoxFit fit) {
    Discrepancy off = fit.discrepancy();
    List<String> parts = new ArrayList<>();
    add(parts, off.scattered(), " at each point by itself");
    add(parts, off.smooth(), " smoothly along frequency");
    add(parts, off.suspension(), " an octave in the suspension's stiffness");
    add(parts, off.coil(), " an octave in the coil's inductive part");
    return "The fit leaves "
        + percent(fit.relativeResidual())
        + " of |Z| (root mean square). Beyond the sweep's noise the model is taken to be off by "
        + (parts.isEmpty() ? "nothing" : String.join(", ", parts))
        + "; the intervals allow for it.";
  }

  private static void add(List<String> parts, double part, String where) {
    if (part > 0) {
      parts.add(percent(part) + where);
    }
  }

  static String percent(double fraction) {
    return Figures.plain(Double.parseDouble(String.format(Locale.ROOT, "%.2g", 100 * fraction)))
        + " %";
  }

  private static String scale(List<BoxSweep> sweeps, double factor) {
    double most = scaleUncertainty(sweeps);
    if (most == 0) {
      return "The files do not say how well their scale of impedance is known: the intervals in ohm"
          + " leave that out.";
    }
    return "The scale of impedance has a standard uncertainty of "
        + percent(most)
        + ", which values in ohm carry; frequencies, Q and ratios are free of it. The measured"
        + " curve is taken to be "
        + String.format(Locale.ROOT, "%.4f", factor)
        + " times the box's own.";
  }

  static double scaleUncertainty(List<BoxSweep> sweeps) {
    return sweeps.stream().mapToDouble(each -> each.curve().scaleUncertainty()).max().orElse(0);
  }
}
