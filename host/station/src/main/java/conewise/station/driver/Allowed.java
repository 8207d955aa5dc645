package conewise.station.driver;

import conewise.station.card.Figures;

/** Limits of what a person may state. */
final class Allowed {
  private Allowed() {}

  static void require(String what, double value, double least, double most, String unit) {
    if (!(value >= least && value <= most)) {
      throw new IllegalArgumentException(
          what
              + " is given as "
              + Figures.plain(value)
              + (unit.isEmpty() ? "" : " " + unit)
              + "; it must be from "
              + Figures.plain(least)
              + " to "
              + Figures.plain(most));
    }
  }
}
