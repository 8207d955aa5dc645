package conewise.station.box;

import conewise.analysis.diagnosis.State;
import conewise.analysis.impedance.ImpedanceCurve;
import java.nio.file.Path;

/**
 * One sweep of a box.
 *
 * @param file where it came from
 * @param state the state that the box was in
 * @param curve the impedance, as it was measured
 */
public record BoxSweep(Path file, State state, ImpedanceCurve curve) {
  /** The state as programs read it. */
  String machineWord() {
    if (state instanceof State.VentClosed) {
      return "vent-closed";
    }
    if (state instanceof State.LeadsSwapped) {
      return "leads-swapped";
    }
    return state instanceof State.Unplugged ? "unplugged" : "as-built";
  }

  /** The part that the state is about; empty for a box as it came. */
  String part() {
    if (state instanceof State.VentClosed closed) {
      return closed.vent();
    }
    if (state instanceof State.LeadsSwapped swapped) {
      return swapped.driver();
    }
    return state instanceof State.Unplugged unplugged ? unplugged.driver() : "";
  }
}
