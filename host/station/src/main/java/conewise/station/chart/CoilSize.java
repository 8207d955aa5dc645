package conewise.station.chart;

import conewise.analysis.model.Circuit;

/** How wide a coil of a wiring is drawn: all alike, and so that the longest name fits. */
record CoilSize(double width) {
  private static final double LETTER_WIDTH = 7;
  private static final double LEAST = 108;

  CoilSize(Circuit wiring, CoilWords words) {
    this(
        Math.max(
            LEAST,
            LETTER_WIDTH
                * wiring.coils().stream()
                    .map(words::name)
                    .mapToInt(String::length)
                    .max()
                    .orElse(0)));
  }
}
