package conewise.station.chart;

import conewise.analysis.model.Circuit.Coil;
import java.util.Set;
import java.util.function.Function;

/**
 * What is said of the coils of a wiring.
 *
 * @param noteOf what stands beneath a coil's name, e.g. its resistance; blank for nothing
 * @param suspected those that a fault is suspected of
 */
record CoilWords(Function<Coil, String> noteOf, Set<Coil> suspected) {
  /** A coil's name, that it is the other way round, and that a fault is suspected of it. */
  String name(Coil coil) {
    return coil.driver()
        + (coil.reversed() ? ", reversed" : "")
        + (isSuspected(coil) ? ": look here" : "");
  }

  String note(Coil coil) {
    return noteOf.apply(coil);
  }

  boolean isSuspected(Coil coil) {
    return suspected.contains(coil);
  }
}
