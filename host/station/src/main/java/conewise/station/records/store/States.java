package conewise.station.records.store;

import conewise.analysis.diagnosis.State;
import java.io.IOException;

/** The states of a box as words of the records. */
final class States {
  private States() {}

  static String word(State state) {
    if (state instanceof State.LeadsSwapped) {
      return "leads-swapped";
    }
    if (state instanceof State.Unplugged) {
      return "unplugged";
    }
    return state instanceof State.VentClosed ? "vent-closed" : "as-built";
  }

  /** The driver or vent that was meddled with; empty of a box as it came. */
  static String part(State state) {
    if (state instanceof State.LeadsSwapped swapped) {
      return swapped.driver();
    }
    if (state instanceof State.Unplugged unplugged) {
      return unplugged.driver();
    }
    return state instanceof State.VentClosed closed ? closed.vent() : "";
  }

  static State of(String word, String part) throws IOException {
    return switch (word) {
      case "leads-swapped" -> new State.LeadsSwapped(part);
      case "unplugged" -> new State.Unplugged(part);
      case "vent-closed" -> new State.VentClosed(part);
      case "as-built" -> new State.AsBuilt();
      default -> throw new IOException("the state " + word + " is not known");
    };
  }
}
